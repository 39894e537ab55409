// Pictures that lie under the sheet: which of the two kinds a file is, and how large.
#pragma once

#include <string_view>

#include "base/base.h"

namespace spadework::exchange {

inline constexpr std::size_t kMostPicture_bytes = std::size_t{24} << 20;
inline constexpr int kMostPicture_px = 16000;  // a side; what browsers still draw

enum class PictureKind { kPng, kJpeg };

/// Whether the bytes begin as one of them does.
[[nodiscard]] bool begins_as_picture(std::string_view bytes);

struct PictureHead {
  PictureKind kind = PictureKind::kPng;
  int width_px = 0, height_px = 0;  // as stored; a JPEG may ask to be shown turned
};
/// Reads the head alone; the pixels are the browser's.
/// Errors: kSyntax for other files and for heads that break off; kImpossibleValue for a side of
///         no pixels; kTooLarge.
/// Source: ISO/IEC 15948 (PNG) 11.2.2; ITU-T T.81 (JPEG) B.1, B.2.
/// Tested: picture_file_test.cpp; every file cut off at every length.
[[nodiscard]] Result<PictureHead> picture_head(std::string_view bytes);
/// "image/png", "image/jpeg".
[[nodiscard]] const char* media_type(PictureKind kind);

}  // namespace spadework::exchange
