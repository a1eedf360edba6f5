#include "render_png.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace tallyblock::test {
namespace {

struct Texel {
  float r = 1, g = 1, b = 1, a = 1;
};

Texel texel(const ImTextureData& t, int x, int y) {
  x = std::clamp(x, 0, t.Width - 1);
  y = std::clamp(y, 0, t.Height - 1);
  const unsigned char* p = t.Pixels + (x + y * t.Width) * t.BytesPerPixel;
  if (t.BytesPerPixel == 1) return {1, 1, 1, static_cast<float>(p[0]) / 255};
  return {static_cast<float>(p[0]) / 255, static_cast<float>(p[1]) / 255,
          static_cast<float>(p[2]) / 255, static_cast<float>(p[3]) / 255};
}

Texel sample(const ImTextureData& t, float u, float v) {
  const float x = u * static_cast<float>(t.Width) - 0.5F,
              y = v * static_cast<float>(t.Height) - 0.5F;
  const int x0 = static_cast<int>(std::floor(x)), y0 = static_cast<int>(std::floor(y));
  const float fx = x - static_cast<float>(x0), fy = y - static_cast<float>(y0);
  const Texel a = texel(t, x0, y0), b = texel(t, x0 + 1, y0), c = texel(t, x0, y0 + 1),
              d = texel(t, x0 + 1, y0 + 1);
  const auto mix = [&](float p, float q, float r, float s) {
    return (p * (1 - fx) + q * fx) * (1 - fy) + (r * (1 - fx) + s * fx) * fy;
  };
  return {mix(a.r, b.r, c.r, d.r), mix(a.g, b.g, c.g, d.g), mix(a.b, b.b, c.b, d.b),
          mix(a.a, b.a, c.a, d.a)};
}

float byte_of(ImU32 colour, unsigned shift) {
  return static_cast<float>((colour >> shift) & 0xFFU);
}

void blend(Pixels& out, int x, int y, float r, float g, float b, float alpha) {
  std::uint8_t* p = &out.rgb[static_cast<std::size_t>((y * out.width + x) * 3)];
  const float from[] = {r, g, b};
  for (int i = 0; i < 3; ++i) {
    const float mixed = static_cast<float>(p[i]) * (1 - alpha) + from[i] * alpha;
    p[i] = static_cast<std::uint8_t>(std::clamp(mixed + 0.5F, 0.0F, 255.0F));
  }
}

struct Triangle {
  std::array<ImDrawVert, 3> v;
  ImVec4 clip;
  const ImTextureData* texture;

  void draw(Pixels& out) const {
    const auto edge = [](ImVec2 a, ImVec2 b, float x, float y) {
      return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
    };
    const ImVec2 a = v[0].pos, b = v[1].pos, c = v[2].pos;
    const float area = edge(a, b, c.x, c.y);
    if (area == 0) return;
    // A shared edge belongs to one of its two triangles, whichever way they turn.
    const auto owns = [&](ImVec2 p, ImVec2 q) {
      const float dx = area > 0 ? q.x - p.x : p.x - q.x, dy = area > 0 ? q.y - p.y : p.y - q.y;
      return dy > 0 || (dy == 0 && dx > 0);
    };
    const bool owned[] = {owns(b, c), owns(c, a), owns(a, b)};
    const int left =
        std::max({0, static_cast<int>(clip.x), static_cast<int>(std::min({a.x, b.x, c.x}))});
    const int top =
        std::max({0, static_cast<int>(clip.y), static_cast<int>(std::min({a.y, b.y, c.y}))});
    const int right = std::min(
        {out.width, static_cast<int>(clip.z), static_cast<int>(std::max({a.x, b.x, c.x})) + 1});
    const int bottom = std::min(
        {out.height, static_cast<int>(clip.w), static_cast<int>(std::max({a.y, b.y, c.y})) + 1});
    for (int y = top; y < bottom; ++y) {
      for (int x = left; x < right; ++x) {
        const float px = static_cast<float>(x) + 0.5F, py = static_cast<float>(y) + 0.5F;
        const float w0 = edge(b, c, px, py) / area, w1 = edge(c, a, px, py) / area,
                    w2 = edge(a, b, px, py) / area;
        if (w0 < 0 || w1 < 0 || w2 < 0) continue;
        if ((w0 == 0 && !owned[0]) || (w1 == 0 && !owned[1]) || (w2 == 0 && !owned[2])) continue;
        const auto mix = [&](unsigned shift) {
          return w0 * byte_of(v[0].col, shift) + w1 * byte_of(v[1].col, shift) +
                 w2 * byte_of(v[2].col, shift);
        };
        Texel t;
        if (texture != nullptr && texture->Pixels != nullptr) {
          t = sample(*texture, w0 * v[0].uv.x + w1 * v[1].uv.x + w2 * v[2].uv.x,
                     w0 * v[0].uv.y + w1 * v[1].uv.y + w2 * v[2].uv.y);
        }
        blend(out, x, y, mix(0) * t.r, mix(8) * t.g, mix(16) * t.b, mix(24) / 255 * t.a);
      }
    }
  }
};

std::uint32_t crc(const std::string& bytes) {
  std::uint32_t c = 0xFFFFFFFFU;
  for (const char byte : bytes) {
    c ^= static_cast<unsigned char>(byte);
    for (int k = 0; k < 8; ++k) c = (c & 1U) != 0 ? 0xEDB88320U ^ (c >> 1U) : c >> 1U;
  }
  return ~c;
}

void big_endian(std::string& out, std::uint32_t n) {
  for (int shift = 24; shift >= 0; shift -= 8)
    out += static_cast<char>((n >> static_cast<unsigned>(shift)) & 0xFFU);
}

void chunk(std::string& out, const char* kind, const std::string& body) {
  big_endian(out, static_cast<std::uint32_t>(body.size()));
  const std::string all = kind + body;
  out += all;
  big_endian(out, crc(all));
}

// A zlib stream of stored blocks: valid, and no compressor is needed.
std::string stored(const std::string& raw) {
  std::string out = "\x78\x01";
  std::uint32_t a = 1, b = 0;
  for (const char c : raw) {
    a = (a + static_cast<unsigned char>(c)) % 65521U;
    b = (b + a) % 65521U;
  }
  for (std::size_t at = 0; at < raw.size();) {
    const std::size_t n = std::min<std::size_t>(raw.size() - at, 65535);
    out += at + n == raw.size() ? '\1' : '\0';
    for (const std::size_t v : {n, ~n}) {
      out += static_cast<char>(v & 0xFFU);
      out += static_cast<char>((v >> 8U) & 0xFFU);
    }
    out.append(raw, at, n);
    at += n;
  }
  big_endian(out, (b << 16U) | a);
  return out;
}

}  // namespace

void serve_textures(ImDrawData* data) {
  if (data->Textures == nullptr) return;
  for (ImTextureData* t : *data->Textures) {
    if (t->Status == ImTextureStatus_WantCreate || t->Status == ImTextureStatus_WantUpdates) {
      t->SetTexID(static_cast<ImTextureID>(t->UniqueID + 1));
      t->SetStatus(ImTextureStatus_OK);
    } else if (t->Status == ImTextureStatus_WantDestroy) {
      t->SetTexID(ImTextureID_Invalid);
      t->SetStatus(ImTextureStatus_Destroyed);
    }
  }
}

Pixels render(ImDrawData* data) {
  serve_textures(data);
  Pixels out;
  out.width = static_cast<int>(data->DisplaySize.x);
  out.height = static_cast<int>(data->DisplaySize.y);
  out.rgb.assign(static_cast<std::size_t>(out.width * out.height * 3), 0);
  for (const ImDrawList* list : data->CmdLists) {
    for (const ImDrawCmd& cmd : list->CmdBuffer) {
      if (cmd.UserCallback != nullptr) continue;
      const ImTextureData* texture = nullptr;
      for (const ImTextureData* t : *data->Textures) {
        if (t->TexID == cmd.GetTexID()) texture = t;
      }
      for (unsigned i = 0; i + 2 < cmd.ElemCount; i += 3) {
        Triangle t{{}, cmd.ClipRect, texture};
        for (unsigned k = 0; k < 3; ++k) {
          const auto at = static_cast<int>(cmd.IdxOffset + i + k);
          t.v[k] = list->VtxBuffer[static_cast<int>(cmd.VtxOffset) + list->IdxBuffer[at]];
        }
        t.draw(out);
      }
    }
  }
  return out;
}

std::string png_of(const Pixels& pixels) {
  std::string raw, head, out = "\x89PNG\r\n\x1a\n";
  const auto row = static_cast<std::size_t>(pixels.width) * 3;
  for (int y = 0; y < pixels.height; ++y) {
    raw += '\0';
    raw.append(reinterpret_cast<const char*>(pixels.rgb.data()) + static_cast<std::size_t>(y) * row,
               row);
  }
  big_endian(head, static_cast<std::uint32_t>(pixels.width));
  big_endian(head, static_cast<std::uint32_t>(pixels.height));
  head += std::string("\x08\x02\x00\x00\x00", 5);
  chunk(out, "IHDR", head);
  chunk(out, "IDAT", stored(raw));
  chunk(out, "IEND", "");
  return out;
}

bool write_png(const std::string& path, const Pixels& pixels) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (file == nullptr) return false;
  const std::string bytes = png_of(pixels);
  const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
  return std::fclose(file) == 0 && written;
}

}  // namespace tallyblock::test
