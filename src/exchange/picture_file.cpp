#include "exchange/picture_file.h"

#include <fmt/format.h>

#include <optional>

namespace spadework::exchange {
namespace {

constexpr std::string_view kPngSign = "\x89PNG\r\n\x1a\n";
constexpr std::string_view kJpegSign = "\xff\xd8\xff";

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}
unsigned pair_at(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 8U | byte_at(bytes, at + 1);
}

struct Sides {
  unsigned width = 0, height = 0;
};

/// IHDR comes first: length, name, width, height.
std::optional<Sides> png_sides(std::string_view bytes) {
  if (bytes.size() < 33 || bytes.substr(12, 4) != "IHDR") return std::nullopt;
  return Sides{pair_at(bytes, 16) << 16U | pair_at(bytes, 18),
               pair_at(bytes, 20) << 16U | pair_at(bytes, 22)};
}

bool begins_frame(unsigned marker) {  // SOF0 to SOF15 without DHT, JPG and DAC
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/// Segment by segment to the frame's head.
std::optional<Sides> jpeg_sides(std::string_view bytes) {
  std::size_t at = 2;
  while (at + 4 <= bytes.size()) {
    if (byte_at(bytes, at) != 0xFF) return std::nullopt;
    const unsigned marker = byte_at(bytes, at + 1);
    if (marker == 0xFF) {  // fill
      ++at;
      continue;
    }
    const bool is_bare = marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8);
    if (is_bare) {
      at += 2;
      continue;
    }
    const std::size_t length = pair_at(bytes, at + 2);
    if (length < 2 || marker == 0xD9 || marker == 0xDA) return std::nullopt;
    if (begins_frame(marker)) {
      if (length < 8 || at + 9 > bytes.size()) return std::nullopt;
      return Sides{pair_at(bytes, at + 7), pair_at(bytes, at + 5)};
    }
    at += 2 + length;
  }
  return std::nullopt;
}

}  // namespace

bool begins_as_picture(std::string_view bytes) {
  return bytes.starts_with(kPngSign) || bytes.starts_with(kJpegSign);
}

Result<PictureHead> picture_head(std::string_view bytes) {
  const bool is_png = bytes.starts_with(kPngSign);
  if (!begins_as_picture(bytes))
    return fail(ErrorCode::kSyntax, "", "This is no PNG and no JPEG picture.",
                "Save it as one of the two, and choose that.");
  if (bytes.size() > kMostPicture_bytes)
    return fail(ErrorCode::kTooLarge, "",
                fmt::format("The picture is longer than {} MB.", kMostPicture_bytes / 1'000'000),
                "Save it smaller: 3,000 pixels across show a garden well enough.");
  const auto sides = is_png ? png_sides(bytes) : jpeg_sides(bytes);
  if (!sides)
    return fail(ErrorCode::kSyntax, "", "The picture breaks off, or is damaged.",
                "Save it anew, and choose that.");
  if (sides->width == 0 || sides->height == 0)
    return fail(ErrorCode::kImpossibleValue, "", "The picture has no pixels.",
                "Save it anew, and choose that.");
  if (sides->width > unsigned{kMostPicture_px} || sides->height > unsigned{kMostPicture_px})
    return fail(ErrorCode::kTooLarge, "",
                fmt::format("The picture is {} by {} pixels; {} a side are the most.", sides->width,
                            sides->height, kMostPicture_px),
                "Save it smaller: 3,000 pixels across show a garden well enough.");
  return PictureHead{is_png ? PictureKind::kPng : PictureKind::kJpeg,
                     static_cast<int>(sides->width), static_cast<int>(sides->height)};
}

const char* media_type(PictureKind kind) {
  return kind == PictureKind::kPng ? "image/png" : "image/jpeg";
}

}  // namespace spadework::exchange
