#include "sheets/png.h"

#include <cairo.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <limits>
#include <vector>

#include "sheets/test_fonts.h"

namespace spadework::sheets {
namespace {

using namespace geometry;  // NOLINT: the display list, all of it

struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;
  [[nodiscard]] Colour at(int x, int y) const {
    return colour_from_hex(pixels.at(static_cast<std::size_t>(y * width + x)) & 0xffffff);
  }
};

cairo_status_t read_bytes(void* from, unsigned char* data, unsigned int size) {
  auto* rest = static_cast<std::vector<std::uint8_t>*>(from);
  if (rest->size() < size) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(data, rest->data(), size);
  rest->erase(rest->begin(), rest->begin() + size);
  return CAIRO_STATUS_SUCCESS;
}

Picture picture_of(const Drawing& drawing, double dots_per_mm) {
  Result<std::vector<std::uint8_t>> png = to_png(drawing, *test_fonts(), dots_per_mm);
  EXPECT_TRUE(png) << (png ? "" : png.error().message);
  if (!png) return {};
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read_bytes, &*png);
  EXPECT_EQ(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
  Picture picture{
      cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  const unsigned char* rows = cairo_image_surface_get_data(surface);
  for (int y = 0; y < picture.height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(
        rows + static_cast<std::ptrdiff_t>(y) * cairo_image_surface_get_stride(surface));
    picture.pixels.insert(picture.pixels.end(), row, row + picture.width);
  }
  cairo_surface_destroy(surface);
  return picture;
}

Drawing sheet_of(double width_mm, double height_mm) {
  Drawing drawing;
  drawing.width_mm = width_mm, drawing.height_mm = height_mm;
  return drawing;
}

bool has_dark_pixel(const Picture& picture) {
  return std::any_of(picture.pixels.begin(), picture.pixels.end(),
                     [](std::uint32_t pixel) { return (pixel & 0xff) < 0x60; });
}

TEST(Png, HasItsSizeAndPaper) {
  const Picture picture = picture_of(sheet_of(297, 210), 2);
  EXPECT_EQ(picture.width, 594);
  EXPECT_EQ(picture.height, 420);
  EXPECT_EQ(picture.at(0, 0), colour_of(Role::kPaper));
  EXPECT_EQ(picture.at(593, 419), colour_of(Role::kPaper));
}

TEST(Png, PaintsFillsInTheirColour) {
  Drawing drawing = sheet_of(20, 20);
  Path ring = Path::box({2, 2}, 16, 16);
  ring.add(Path::box({8, 8}, 4, 4));
  drawing.root.add({Shape{ring, {Paint(Role::kRedChalk)}, std::nullopt}});
  const Picture picture = picture_of(drawing, 5);
  EXPECT_EQ(picture.at(20, 20), colour_of(Role::kRedChalk));
  EXPECT_EQ(picture.at(50, 50), colour_of(Role::kPaper));  // the hole
  EXPECT_EQ(picture.at(2, 2), colour_of(Role::kPaper));
}

TEST(Png, RunsDownThePaper) {
  Drawing drawing = sheet_of(20, 20);
  drawing.root.add({Shape{Path::box({0, 15}, 20, 5), {Paint(Role::kInk)}, std::nullopt}});
  const Picture picture = picture_of(drawing, 2);
  EXPECT_EQ(picture.at(20, 38), colour_of(Role::kInk));
  EXPECT_EQ(picture.at(20, 2), colour_of(Role::kPaper));
}

CellImage two_cells(CellImage::Look look) {
  return {2, 1, {light_colour(0), light_colour(2)}, {}, {{0, 0}, {10, 0}, {0, 20}}, look};
}

TEST(Png, ShowsCrispCellsAsTheyAre) {
  Drawing drawing = sheet_of(20, 20);
  drawing.root.add({two_cells(CellImage::Look::kCrisp)});
  const Picture picture = picture_of(drawing, 4);
  EXPECT_EQ(picture.at(2, 40), light_colour(0));
  EXPECT_EQ(picture.at(38, 40), light_colour(0));
  EXPECT_EQ(picture.at(41, 40), light_colour(2));
}

TEST(Png, RunsSmoothCellsFromMiddleToMiddle) {
  Drawing drawing = sheet_of(20, 20);
  drawing.root.add({two_cells(CellImage::Look::kSmooth)});
  const Picture picture = picture_of(drawing, 4);
  EXPECT_EQ(picture.at(2, 40), light_colour(0));
  EXPECT_EQ(picture.at(77, 40), light_colour(2));
  const Colour middle = picture.at(40, 40), want = light_colour(1);
  EXPECT_NEAR(middle.r, want.r, 2);
  EXPECT_NEAR(middle.g, want.g, 2);
  EXPECT_NEAR(middle.b, want.b, 2);
}

TEST(Png, LeavesAbsentCrispCellsOpenAndFillsSmoothOnes) {
  for (const auto look : {CellImage::Look::kCrisp, CellImage::Look::kSmooth}) {
    Drawing drawing = sheet_of(20, 20);
    CellImage image = two_cells(look);
    image.present = {1, 0};
    drawing.root.add({image});
    EXPECT_EQ(picture_of(drawing, 4).at(70, 40),
              look == CellImage::Look::kCrisp ? colour_of(Role::kPaper) : light_colour(0));
  }
}

TEST(Png, ClipsAGroupToItsOutline) {
  Drawing drawing = sheet_of(20, 20);
  Group& group = drawing.root.add_group();
  group.clip = Path::box({5, 5}, 10, 10);
  group.add({Shape{Path::box({0, 0}, 20, 20), {Paint(Role::kInk)}, std::nullopt}});
  drawing.root.add({Shape{Path::box({0, 18}, 20, 2), {Paint(Role::kFocus)}, std::nullopt}});
  const Picture picture = picture_of(drawing, 4);
  EXPECT_EQ(picture.at(40, 40), colour_of(Role::kInk));
  EXPECT_EQ(picture.at(8, 8), colour_of(Role::kPaper));
  EXPECT_EQ(picture.at(8, 78), colour_of(Role::kFocus));  // the clip ends with its group
}

TEST(Png, WritesLettersOfAllFacesAndSigns) {
  for (const Face face : {Face::kSerif, Face::kSerifItalic, Face::kSans})
    for (const char* letters : {"H", "ő", "→", "≈", "≤", "″", "½"}) {
      Drawing drawing = sheet_of(20, 20);
      Text text;
      text.at = {10, 15};
      text.words = letters;
      text.face = face, text.size_mm = 12, text.anchor = Anchor::kMiddle;
      drawing.root.add({text});
      EXPECT_TRUE(has_dark_pixel(picture_of(drawing, 5))) << letters;
    }
}

TEST(Png, TurnsWordsAnticlockwise) {
  Drawing drawing = sheet_of(20, 20);
  Text text;
  text.at = {10, 10};
  text.words = "HHHH", text.size_mm = 4, text.turn_rad = 1.5707963;
  drawing.root.add({text});
  const Picture picture = picture_of(drawing, 4);
  const auto dark_rows = [&](int from, int to) {
    return std::any_of(picture.pixels.begin() + from * picture.width,
                       picture.pixels.begin() + to * picture.width,
                       [](std::uint32_t pixel) { return (pixel & 0xff) < 0x60; });
  };
  EXPECT_TRUE(dark_rows(0, 30));  // up the paper from its place
  EXPECT_FALSE(dark_rows(42, 80));
}

TEST(Png, RefusesWhatIsTooLargeOrNothing) {
  EXPECT_EQ(to_png(sheet_of(1000, 1000), *test_fonts(), 30).error().code, ErrorCode::kTooLarge);
  EXPECT_EQ(to_png(sheet_of(5000, 1), *test_fonts(), 10).error().code, ErrorCode::kTooLarge);
  EXPECT_EQ(to_png(sheet_of(10, 10), *test_fonts(), 0).error().code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(to_png(sheet_of(10, 0), *test_fonts(), 4).error().code, ErrorCode::kImpossibleValue);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(to_png(sheet_of(10, 10), *test_fonts(), nan).error().code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(to_png(sheet_of(nan, 10), *test_fonts(), 4).error().code, ErrorCode::kImpossibleValue);
}

}  // namespace
}  // namespace spadework::sheets
