// Draws a finished Dear ImGui frame into memory, without a graphics card, and writes PNG files.
// For looking at screens and keeping pictures of them; not fast, not part of the app.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

struct ImDrawData;

namespace tallyblock::test {

struct Pixels {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;  // 3 bytes a pixel, top row first
};

// Answers the textures' requests as a graphics back end would (they stay in memory).
void serve_textures(ImDrawData* data);
Pixels render(ImDrawData* data);
std::string png_of(const Pixels& pixels);
bool write_png(const std::string& path, const Pixels& pixels);

}  // namespace tallyblock::test
