// Copies of the frame's texts, given back all at once.
#pragma once
#include <cstddef>
#include <cstring>
#include <memory>
#include <string_view>
#include <vector>

namespace tallyblock {

class Arena {
 public:
  // The copy lives until clear().
  std::string_view keep(std::string_view text) {
    if (text.empty()) return {};
    while (at_ < blocks_.size() && blocks_[at_].size - used_ < text.size()) {
      ++at_;
      used_ = 0;
    }
    if (at_ == blocks_.size()) {
      const std::size_t size = text.size() > block ? text.size() : block;
      blocks_.push_back({std::make_unique<char[]>(size), size});
      used_ = 0;
    }
    char* to = blocks_[at_].bytes.get() + used_;
    std::memcpy(to, text.data(), text.size());
    used_ += text.size();
    return {to, text.size()};
  }
  void clear() {
    at_ = 0;
    used_ = 0;
  }

 private:
  static constexpr std::size_t block = 8192;
  struct Block {
    std::unique_ptr<char[]> bytes;
    std::size_t size;
  };
  std::vector<Block> blocks_;
  std::size_t at_ = 0, used_ = 0;
};

}  // namespace tallyblock
