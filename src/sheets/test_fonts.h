// The bundled faces, read from data/fonts, for the tests of this room.
#pragma once

#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>

#include "sheets/fonts.h"

namespace spadework::sheets {

inline const Result<Fonts>& test_fonts() {
  static std::map<std::string, std::string> files;
  static const Result<Fonts> fonts = Fonts::open(font_bytes([](std::string_view name) {
    std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/data/fonts/" + std::string(name),
                     std::ios::binary);
    std::string& bytes = files[std::string(name)];
    bytes.assign(std::istreambuf_iterator<char>(in), {});
    return std::string_view(bytes);
  }));
  return fonts;
}

}  // namespace spadework::sheets
