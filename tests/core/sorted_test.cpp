#include "core/base/sorted.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace tallyblock {
namespace {

TEST(HeapSort, PutsAnyListInOrderAndLosesNothing) {
  std::mt19937 random(3);
  for (std::size_t size = 0; size < 80; ++size) {
    std::vector<unsigned> list(size);
    for (unsigned& each : list) each = static_cast<unsigned>(random() % 20);  // many twice
    std::vector<unsigned> expected = list;
    std::sort(expected.begin(), expected.end());
    heap_sort(list);
    EXPECT_EQ(list, expected) << size;
  }
}

TEST(HeapSort, SortsByAnOrderOfOnesOwn) {
  std::vector<int> down = {3, 1, 4, 1, 5};
  heap_sort(down, std::greater<>());
  EXPECT_EQ(down, (std::vector<int>{5, 4, 3, 1, 1}));
  std::vector<std::pair<std::string, int>> by_number = {{"a", 2}, {"b", 1}, {"c", 3}};
  heap_sort(by_number, [](const auto& a, const auto& b) { return a.second < b.second; });
  EXPECT_EQ(by_number, (std::vector<std::pair<std::string, int>>{{"b", 1}, {"a", 2}, {"c", 3}}));
}

TEST(HeapSort, SortsAPlainArrayInPlace) {
  std::string words[] = {"rump", "eye", "chain", "cap"};
  heap_sort(words);
  EXPECT_EQ(words[0], "cap");
  EXPECT_EQ(words[1], "chain");
  EXPECT_EQ(words[2], "eye");
  EXPECT_EQ(words[3], "rump");
}

// make_heap compares 3 n times at most, sort_heap 2 n log n (C++20, [make.heap], [sort.heap]).
TEST(HeapSort, NeedsNLogNComparisonsWhateverTheOrderBefore) {
  constexpr std::size_t n = 4096;
  std::vector<std::size_t> upwards(n), organ(n);
  std::iota(upwards.begin(), upwards.end(), 0U);
  for (std::size_t i = 0; i < n; ++i) organ[i] = std::min(i, n - i);
  const std::vector<std::size_t> downwards(upwards.rbegin(), upwards.rend());
  for (std::vector<std::size_t> list : {upwards, downwards, organ, std::vector<std::size_t>(n)}) {
    double compared = 0.0;
    heap_sort(list, [&](std::size_t a, std::size_t b) {
      ++compared;
      return a < b;
    });
    EXPECT_TRUE(std::is_sorted(list.begin(), list.end()));
    EXPECT_LE(compared, 3.0 * n + 2.0 * n * std::log2(n));
  }
}

}  // namespace
}  // namespace tallyblock
