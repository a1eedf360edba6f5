// How long something takes, by the steady clock.
#pragma once
#include <algorithm>
#include <chrono>
#include <cstddef>
#include <vector>

namespace tallyblock::bench {

inline volatile std::size_t kept_result = 0;  // so that no work is optimised away

// The median of so many repeats, in milliseconds.
template <class Work>
double median_ms(int repeats, Work work) {
  std::vector<double> times;
  for (int i = 0; i < repeats; ++i) {
    const auto start = std::chrono::steady_clock::now();
    kept_result = kept_result + work();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    times.push_back(took.count());
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

// The mean of so many repeats, in milliseconds: a browser that slows its processor down stops it now and
// then, which single repeats may escape.
template <class Work>
double mean_ms(int repeats, Work work) {
  const auto start = std::chrono::steady_clock::now();
  for (int i = 0; i < repeats; ++i) kept_result = kept_result + work();
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  return took.count() / repeats;
}

}  // namespace tallyblock::bench
