#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "server/routes.h"
#include "server/told.h"

namespace spadework::server {
namespace {

constexpr double kLeastMmPerM = 0.5, kMostMmPerM = 400;

double number_of(const Request& request, const std::string& key, double usual) {
  const std::string text = word_of(request, key, "");
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() && std::isfinite(value) ? value
                                                                                          : usual;
}

/// "low x,low y,high x,high y" in metres; nothing where it is not given.
Result<std::optional<geometry::Box2>> frame_in(const std::string& text) {
  if (text.empty()) return std::optional<geometry::Box2>();
  constexpr double kFarthest_m = 1e5;
  std::array<double, 4> figures{};
  const char* at = text.data();
  const char* const end = at + text.size();
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const auto [next, error] = std::from_chars(at, end, figures[i]);
    const bool last = i + 1 == figures.size();
    if (error != std::errc() || !(std::abs(figures[i]) <= kFarthest_m) || (next == end) != last ||
        (!last && *next != ','))
      return fail(ErrorCode::kWrongUse, "frame", "that is no frame",
                  "give its lower left and upper right corner in metres: 0,0,9,12");
    at = next + (last ? 0 : 1);
  }
  const geometry::Box2 box{{figures[0], figures[1]}, {figures[2], figures[3]}};
  if (box.width() > 0 && box.height() > 0) return std::optional(box);
  return fail(ErrorCode::kWrongUse, "frame", "a frame has some width and height",
              "give its lower left corner first");
}

Result<SheetAsked> asked_of(const Request& request, const garden::Garden& garden) {
  const bool southern = garden.site.latitude < degrees(0);
  const double midsummer = southern ? 355 : 172;  // in leaf
  const double day = std::clamp(number_of(request, "day_of_year", midsummer), 1.0, 365.0);
  const auto frame = frame_in(word_of(request, "frame", ""));
  if (!frame) return tl::unexpected<Error>(frame.error());
  return SheetAsked{std::clamp(number_of(request, "mm_per_m", 20), kLeastMmPerM, kMostMmPerM),
                    static_cast<int>(day), *frame};
}

struct Sheet {
  std::string asked;
  std::shared_ptr<const SheetPieces> pieces;
};

/// The drawing asked for, as the garden is now; kept for those who will ask what has changed.
Result<Sheet> sheet_now(OpenGarden::Held& garden, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const auto found = garden.study().stand("found");
  if (!found) return tl::unexpected<Error>(found.error());
  const auto asked = asked_of(request, (*stand)->garden);
  if (!asked) return tl::unexpected<Error>(asked.error());
  const std::string key = fmt::format("{} {} {} {}", scheme, asked->mm_per_m, asked->day_of_year,
                                      word_of(request, "frame", ""));
  Latest<SheetPieces>& told = garden.told().sheets;
  const std::int64_t change = garden.head().change;
  if (auto same = told.find(key, change)) return Sheet{key, std::move(same)};
  const auto known = told.newest(key);
  auto made = sheet_pieces(**stand, scheme == "found" ? nullptr : &(*found)->garden, *asked,
                           garden.workshop(), known.get());
  if (!made) return tl::unexpected<Error>(made.error());
  auto pieces = std::make_shared<const SheetPieces>(std::move(*made));
  told.keep(key, change, pieces);
  return Sheet{key, std::move(pieces)};
}

}  // namespace

Answer sheet_of(OpenGarden::Held& garden, const Request& request) {
  const auto sheet = sheet_now(garden, request);
  if (!sheet) return error_answer(sheet.error());
  return {200, "image/svg+xml", sheet->pieces->whole(), ""};
}

Answer sheet_changes(OpenGarden::Held& garden, const Request& request) {
  const std::int64_t since = std::atoll(word_of(request, "since", "-1").c_str());
  const auto sheet = sheet_now(garden, request);
  if (!sheet) return error_answer(sheet.error());
  const auto before = garden.told().sheets.find(sheet->asked, since);
  Json json = before == nullptr ? Json{{"whole", true}} : changes_between(*before, *sheet->pieces);
  json["change"] = garden.head().change;
  return json_answer(json);
}

}  // namespace spadework::server
