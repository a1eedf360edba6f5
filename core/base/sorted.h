// Sorting by heap: n log n at worst, in place, not stable. The library's own sort compiles to five
// times the code at every place that uses it, and what is sorted here is short: a phone pays for
// bytes it downloads sooner than for the microseconds.
#pragma once
#include <algorithm>
#include <functional>
#include <iterator>

namespace tallyblock {

template <class Range, class Less = std::less<>>
void heap_sort(Range& range, Less less = {}) {
  std::make_heap(std::begin(range), std::end(range), less);
  std::sort_heap(std::begin(range), std::end(range), less);
}

}  // namespace tallyblock
