// Heads of pictures: sides as they were written, and files that are none.
#include "exchange/picture_file.h"

#include <gtest/gtest.h>

#include <string>

namespace spadework::exchange {
namespace {

using namespace std::string_literals;

std::string pair(unsigned value) {
  return {static_cast<char>(value >> 8U), static_cast<char>(value & 0xFFU)};
}
std::string png(unsigned width, unsigned height) {
  return "\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR"s + pair(width >> 16U) + pair(width & 0xFFFFU) +
         pair(height >> 16U) + pair(height & 0xFFFFU) + "\x08\x02\0\0\0crc."s;
}
/// With a comment and a table before the frame, as cameras write them.
std::string jpeg(unsigned width, unsigned height) {
  return "\xff\xd8\xff\xe1"s + pair(2 + 300) + std::string(300, 'x') + "\xff\xff\xc4"s + pair(4) +
         "\1\2"s + "\xff\xc2"s + pair(11) + "\x08"s + pair(height) + pair(width) + "\1\1\x11\0"s +
         "\xff\xda"s + pair(2);
}

TEST(PictureFile, SidesAreAsTheyWereWritten) {
  for (const auto& [width, height] : {std::pair{1U, 1U}, {640U, 480U}, {4000U, 16000U}}) {
    const auto one = picture_head(png(width, height));
    ASSERT_TRUE(one) << one.error().message;
    EXPECT_EQ(one->kind, PictureKind::kPng);
    EXPECT_EQ(one->width_px, static_cast<int>(width));
    EXPECT_EQ(one->height_px, static_cast<int>(height));
    const auto other = picture_head(jpeg(width, height));
    ASSERT_TRUE(other) << other.error().message;
    EXPECT_EQ(other->kind, PictureKind::kJpeg);
    EXPECT_EQ(other->width_px, static_cast<int>(width));
    EXPECT_EQ(other->height_px, static_cast<int>(height));
  }
}

TEST(PictureFile, WhatIsNoneIsRefused) {
  EXPECT_EQ(picture_head("GIF89a").error().code, ErrorCode::kSyntax);
  EXPECT_EQ(picture_head("").error().code, ErrorCode::kSyntax);
  EXPECT_EQ(picture_head(png(0, 7)).error().code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(picture_head(jpeg(7, 0)).error().code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(picture_head(png(70000, 7)).error().code, ErrorCode::kTooLarge);
  EXPECT_EQ(picture_head(jpeg(16001, 7)).error().code, ErrorCode::kTooLarge);
  EXPECT_EQ(picture_head(png(7, 7) + std::string(kMostPicture_bytes, ' ')).error().code,
            ErrorCode::kTooLarge);
}

TEST(PictureFile, ACutOneIsRefusedAtEveryLength) {
  const std::string one = png(40, 30);
  for (std::size_t n = 0; n < one.size(); ++n) EXPECT_FALSE(picture_head(one.substr(0, n))) << n;
  const std::string other = jpeg(40, 30);
  const std::size_t frame = other.find("\xff\xc2");
  for (std::size_t n = 0; n < frame + 9; ++n) EXPECT_FALSE(picture_head(other.substr(0, n))) << n;
}

}  // namespace
}  // namespace spadework::exchange
