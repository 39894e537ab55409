#include "document/units.h"

#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/text.h"

namespace spadework::document {
namespace {

struct LengthUnit {
  std::string_view name;
  double metres;
  bool metric;
};
constexpr LengthUnit kLengthUnits[] = {
    {"km", 1000, true},       {"m", 1, true},
    {"metre", 1, true},       {"metres", 1, true},
    {"meter", 1, true},       {"meters", 1, true},
    {"cm", 0.01, true},       {"mm", 0.001, true},
    {"yd", 0.9144, false},    {"yard", 0.9144, false},
    {"yards", 0.9144, false}, {"ft", 0.3048, false},
    {"foot", 0.3048, false},  {"feet", 0.3048, false},
    {"'", 0.3048, false},     {"′", 0.3048, false},
    {"’", 0.3048, false},     {"in", 0.0254, false},
    {"inch", 0.0254, false},  {"inches", 0.0254, false},
    {"\"", 0.0254, false},    {"″", 0.0254, false},
    {"”", 0.0254, false},
};

struct Fraction {
  std::string_view sign;
  double value;
};
constexpr Fraction kFractions[] = {{"½", 0.5},   {"¼", 0.25},  {"¾", 0.75}, {"⅛", 0.125},
                                   {"⅜", 0.375}, {"⅝", 0.625}, {"⅞", 0.875}};

constexpr std::string_view kLengthHint =
    "lengths are written 1.4, \"1.4 m\", \"140 cm\", \"195 mm\", \"7 ft\" or \"6 ft 6 in\"";

/// Walks through a text of figures and units.
class Walk {
 public:
  explicit Walk(std::string_view text) : rest_(text) { skip_space(); }
  [[nodiscard]] bool done() const { return rest_.empty(); }
  [[nodiscard]] std::string_view rest() const { return rest_; }

  bool take(std::string_view what) {
    if (rest_.substr(0, what.size()) != what) return false;
    rest_.remove_prefix(what.size());
    skip_space();
    return true;
  }
  /// A figure without sign: `6`, `6.5`, `6 1/2`, `1/2`, `6½`; nothing taken if there is none.
  std::optional<double> figure() {
    std::optional<double> value = digits();
    if (value && take("/")) {
      const auto below = digits();
      if (!below || *below == 0) return std::nullopt;
      value = *value / *below;
    } else if (value && !rest_.empty() && std::isdigit(static_cast<unsigned char>(rest_[0]))) {
      const auto above = digits();
      if (!above || !take("/")) return std::nullopt;
      const auto below = digits();
      if (!below || *below == 0) return std::nullopt;
      value = *value + *above / *below;
    }
    for (const Fraction& fraction : kFractions) {
      if (take(fraction.sign)) value = value.value_or(0) + fraction.value;
    }
    return value;
  }
  /// Letters, or one of the signs ' " ′ ″ ’ ” °; empty if there is none.
  std::string_view word() {
    std::size_t n = 0;
    while (n < rest_.size() && std::isalpha(static_cast<unsigned char>(rest_[n]))) ++n;
    if (n == 0) {
      for (const std::string_view sign : {"'", "\"", "′", "″", "’", "”", "°"}) {
        if (rest_.substr(0, sign.size()) == sign) n = sign.size();
      }
    }
    const std::string_view out = rest_.substr(0, n);
    rest_.remove_prefix(n);
    skip_space();
    return out;
  }

 private:
  void skip_space() {
    while (!rest_.empty() && (rest_[0] == ' ' || rest_[0] == '\t')) rest_.remove_prefix(1);
  }
  std::optional<double> digits() {
    std::size_t n = 0;
    int points = 0;
    while (n < rest_.size() && (std::isdigit(static_cast<unsigned char>(rest_[n])) ||
                                (rest_[n] == '.' && points++ == 0))) {
      ++n;
    }
    double value = 0;
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + n, value);
    if (error != std::errc() || end != rest_.data() + n || n > 30) return std::nullopt;
    rest_.remove_prefix(n);
    skip_space();
    return value;
  }

  std::string_view rest_;
};

/// Takes a leading sign; true for minus.
bool take_sign(Walk& walk) {
  if (walk.take("-") || walk.take("−")) return true;
  walk.take("+");
  return false;
}

Error wrong(ErrorCode code, std::string message, std::string hint) {
  return Error{code, "", std::move(message), std::move(hint)};
}

/// Names a decimal comma, if that is what is wrong.
std::optional<Error> comma_error(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  // Of a comma and a point, the later parts the decimals.
  const std::size_t point = text.find('.');
  const std::size_t decimal = point == std::string_view::npos ? comma : text.find_last_of(",.");
  std::string mended;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == decimal)
      mended += '.';
    else if (text[i] != ',' && (text[i] != '.' || point == std::string_view::npos))
      mended += text[i];
  }
  return wrong(
      ErrorCode::kWrongType, fmt::format("\"{}\" has a comma in its figure", text),
      fmt::format("write a point before the decimals and nothing between thousands: \"{}\"",
                  mended));
}

const LengthUnit* find_length_unit(std::string_view name) {
  for (const LengthUnit& unit : kLengthUnits) {
    if (unit.name == name) return &unit;
  }
  return nullptr;
}

Error unit_error(std::string_view text, std::string_view unit, std::string_view measures,
                 std::string_view hint) {
  if (unit.empty()) {
    return wrong(ErrorCode::kWrongUnit, fmt::format("\"{}\" does not say its unit", text),
                 std::string(hint));
  }
  return wrong(ErrorCode::kWrongUnit, fmt::format("\"{}\" is no unit of {}", unit, measures),
               std::string(hint));
}

Error figure_error(std::string_view text, std::string_view measures, std::string_view hint) {
  if (auto comma = comma_error(text)) return *comma;
  return wrong(ErrorCode::kWrongType, fmt::format("\"{}\" is no {}", text, measures),
               std::string(hint));
}

}  // namespace

Result<Length> parse_length(std::string_view text) {
  Walk walk(text);
  const bool below = take_sign(walk);
  double metres_sum = 0;
  const LengthUnit* last = nullptr;
  do {
    const auto figure = walk.figure();
    if (!figure || walk.rest().substr(0, 1) == ",") {
      return tl::unexpected(figure_error(text, "length", kLengthHint));
    }
    const std::string_view name = walk.word();
    const LengthUnit* unit = find_length_unit(name);
    if (unit == nullptr) {
      if (name.empty() && !walk.done()) {
        return tl::unexpected(figure_error(text, "length", kLengthHint));
      }
      return tl::unexpected(unit_error(text, name, "length", kLengthHint));
    }
    if (last != nullptr && (unit->metric != last->metric || unit->metres >= last->metres)) {
      return tl::unexpected(
          wrong(ErrorCode::kWrongUnit,
                fmt::format("\"{}\" does not go from the larger unit to the smaller", text),
                std::string(kLengthHint)));
    }
    metres_sum += *figure * unit->metres;
    last = unit;
  } while (!walk.done());
  return metres(below ? -metres_sum : metres_sum);
}

Result<Length> parse_stem(std::string_view text) {
  Walk walk(text);
  const bool girth = walk.take("girth");
  if (!girth) walk.take("width");
  auto length = parse_length(walk.rest());
  if (!length) {
    Error error = length.error();
    error.hint = "write its width, 0.3 or \"30 cm\", or its girth: \"girth 0.9 m\"";
    return tl::unexpected(error);
  }
  return girth ? *length / std::numbers::pi : *length;
}

Result<Angle> parse_angle(std::string_view text) {
  constexpr std::string_view kHint = "angles are written 12 or \"12 deg\"";
  Walk walk(text);
  const bool below = take_sign(walk);
  const auto figure = walk.figure();
  if (!figure || walk.rest().substr(0, 1) == ",") {
    return tl::unexpected(figure_error(text, "angle", kHint));
  }
  const std::string_view unit = walk.word();
  const bool known = unit == "deg" || unit == "°" || unit == "degree" || unit == "degrees";
  if (!known || !walk.done()) return tl::unexpected(unit_error(text, unit, "angle", kHint));
  return degrees(below ? -*figure : *figure);
}

Result<Temperature> parse_temperature(std::string_view text) {
  constexpr std::string_view kHint = "temperatures are written -2, \"-2 C\" or \"28 F\"";
  Walk walk(text);
  const bool below = take_sign(walk);
  const auto figure = walk.figure();
  if (!figure || walk.rest().substr(0, 1) == ",") {
    return tl::unexpected(figure_error(text, "temperature", kHint));
  }
  walk.take("°");
  const std::string_view unit = walk.word();
  const double value = below ? -*figure : *figure;
  if (!walk.done()) return tl::unexpected(unit_error(text, walk.rest(), "temperature", kHint));
  if (unit == "C" || unit == "c") return celsius(value);
  if (unit == "F" || unit == "f") return celsius((value - 32) / 1.8);
  return tl::unexpected(unit_error(text, unit, "temperature", kHint));
}

namespace {

/// The unit in `units` that the word means, in singular or plural; empty if none.
std::string meant_unit(std::string_view word, const std::vector<std::string>& units) {
  for (const std::string& unit : units) {
    if (unit == word) return unit;
    if (unit.size() == word.size() + 1 && unit.back() == 's' &&
        unit.compare(0, word.size(), word) == 0) {
      return unit;
    }
    if (unit == std::string(word) + "es") return unit;
  }
  if (word == "l" || word == "litre") return meant_unit("litres", units);
  return {};
}

}  // namespace

Result<Amount> parse_amount(std::string_view text, const std::vector<std::string>& units) {
  const std::string hint =
      "write \"6 kg\", \"30 heads\", \"2 meals a week\" or \"some\"; units are " +
      list_words(units);
  Walk walk(text);
  if (walk.rest() == "some") return Amount{};
  Amount amount;
  const auto figure = walk.figure();
  if (!figure || walk.rest().substr(0, 1) == ",") {
    return tl::unexpected(figure_error(text, "amount", hint));
  }
  amount.number = *figure;
  std::string unit(walk.word());
  if (walk.take("3")) unit += "3";  // m3, yd3
  if (walk.take("2")) unit += "2";
  amount.unit = meant_unit(unit, units);
  if (amount.unit.empty()) {
    const std::string near = unit.empty() ? std::string() : nearest_word(unit, units);
    return tl::unexpected(
        unit_error(text, unit, "amount", near.empty() ? hint : "did you mean " + near + "?"));
  }
  if (walk.take("a ") || walk.take("per ") || walk.take("/")) {
    amount.per = std::string(walk.word());
    if (amount.per != "week" && amount.per != "month" && amount.per != "year") {
      return tl::unexpected(unit_error(text, amount.per, "time", "say a week, a month or a year"));
    }
  }
  if (!walk.done()) {
    return tl::unexpected(wrong(
        ErrorCode::kWrongUnit,
        fmt::format("\"{}\" is not understood after \"{}\"", walk.rest(), amount.unit), hint));
  }
  if (!(amount.number > 0) || amount.number > 1e9) {
    return tl::unexpected(wrong(ErrorCode::kImpossibleValue,
                                fmt::format("\"{}\" is no amount that can be", text), hint));
  }
  return amount;
}

namespace {

constexpr double kInch_m = 0.0254, kPartsOfInch = 16, kTaped_m = 1e-4;

/// The nearest sixteenths of an inch.
double sixteenths(double metres) { return std::round(metres / kInch_m * kPartsOfInch); }

}  // namespace

bool is_taped_in_feet(double metres) {
  return std::abs(sixteenths(metres) / kPartsOfInch * kInch_m - metres) <= kTaped_m;
}

std::string feet_says(double metres) {
  constexpr double kInchesOfFoot = 12, kThousand = 1000;
  const double size = std::abs(metres);
  const bool is_taped = is_taped_in_feet(size);
  const double inches = is_taped ? sixteenths(size) / kPartsOfInch
                                 : std::round(size / kInch_m * kThousand) / kThousand;
  const double feet = std::floor(inches / kInchesOfFoot);
  const double over = inches - feet * kInchesOfFoot;
  std::string out = feet > 0 ? fmt::format("{:.0f} ft", feet) : "";
  if (over > 0) {
    const double whole = is_taped ? std::floor(over) : over;
    auto parts = static_cast<int>(std::round((over - whole) * kPartsOfInch));
    int of = static_cast<int>(kPartsOfInch);
    while (parts > 0 && parts % 2 == 0) parts /= 2, of /= 2;
    std::string figure = whole > 0 || parts == 0 ? fmt::format("{:.6g}", whole) : "";
    if (parts > 0) figure += fmt::format("{}{}/{}", figure.empty() ? "" : " ", parts, of);
    out += (out.empty() ? "" : " ") + figure + " in";
  }
  if (out.empty()) return "0 ft";
  return (metres < 0 ? "-" : "") + out;
}

}  // namespace spadework::document
