#include "base/coordinates.h"

#include <charconv>
#include <cmath>
#include <string>
#include <vector>

namespace spadework {
namespace {

/// A figure with what stands around it.
struct Part {
  double value = 0;
  bool whole = true;  // without a decimal
  char unit = ' ';    // d degrees, m minutes, s seconds, or none
};
/// One of the two.
struct Half {
  std::vector<Part> parts;
  char letter = ' ';  // N S E W
  bool minus = false;
};

/// Signs of many alphabets as one letter of ours.
std::string plain(std::string_view text) {
  static constexpr std::pair<std::string_view, char> kSigns[] = {
      {"°", 'd'}, {"º", 'd'},  {"′", 'm'}, {"’", 'm'}, {"'", 'm'}, {"″", 's'},
      {"”", 's'}, {"\"", 's'}, {"−", '-'}, {"–", '-'}, {";", ','}, {"\t", ' '}};
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    bool found = false;
    for (const auto& [sign, letter] : kSigns) {
      if (text.substr(i).starts_with(sign)) {
        out += letter, i += sign.size(), found = true;
        break;
      }
    }
    if (!found) out += text[i++];
  }
  return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "48,41" has a decimal comma where no figure has a point and the comma stands between digits.
bool has_decimal_commas(const std::string& text) {
  if (text.find('.') != std::string::npos) return false;
  int commas = 0;
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    commas += static_cast<int>(text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1]));
  return commas == 2;
}

class Reader {
 public:
  explicit Reader(std::string text)
      : text_(std::move(text)), has_letters_(text_.find_first_of("NSEWnsew") != std::string::npos) {
    if (has_decimal_commas(text_)) {
      for (std::size_t i = 1; i + 1 < text_.size(); ++i)
        if (text_[i] == ',' && is_digit(text_[i - 1]) && is_digit(text_[i + 1])) text_[i] = '.';
    }
  }
  [[nodiscard]] std::optional<std::vector<Half>> halves();

 private:
  [[nodiscard]] bool take_figure(Half& half);
  /// Letters end a half; without them a figure without a sign, a decimal or seconds does.
  [[nodiscard]] bool is_full(const Half& half) const {
    if (has_letters_) return half.letter != ' ';
    return !half.parts.empty() &&
           (half.parts.back().unit == ' ' || half.parts.size() == 3 || !half.parts.back().whole);
  }

  std::string text_;
  bool has_letters_ = false;
  std::size_t at_ = 0;
};

bool Reader::take_figure(Half& half) {
  if (text_[at_] == '-' || text_[at_] == '+') {
    if (!half.parts.empty()) return false;
    half.minus = text_[at_++] == '-';
  }
  if (at_ == text_.size() || !is_digit(text_[at_])) return false;
  Part part;
  const char* end = text_.data() + text_.size();
  const auto [stop, error] =
      std::from_chars(text_.data() + at_, end, part.value, std::chars_format::fixed);
  if (error != std::errc()) return false;
  const std::string_view digits(text_.data() + at_,
                                static_cast<std::size_t>(stop - (text_.data() + at_)));
  part.whole = digits.find('.') == std::string_view::npos;
  at_ += digits.size();
  while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  if (at_ < text_.size() && (text_[at_] == 'd' || text_[at_] == 'm' || text_[at_] == 's'))
    part.unit = text_[at_++];
  half.parts.push_back(part);
  return half.parts.size() <= 3;
}

std::optional<std::vector<Half>> Reader::halves() {
  std::vector<Half> halves(1);
  const auto next = [&]() -> Half& {
    if (is_full(halves.back())) halves.emplace_back();
    return halves.back();
  };
  bool letter_first = false;
  while (at_ < text_.size()) {
    const char c = text_[at_];
    const char upper = static_cast<char>(c & ~0x20);
    if (c == ' ') {
      ++at_;
    } else if (c == ',') {
      ++at_;
      if (!halves.back().parts.empty()) halves.emplace_back();
    } else if (upper == 'N' || upper == 'S' || upper == 'E' || upper == 'W') {
      ++at_;
      if (halves.size() == 1 && halves[0].parts.empty()) letter_first = true;
      if (letter_first && !halves.back().parts.empty()) halves.emplace_back();
      if (halves.back().letter != ' ') return std::nullopt;
      halves.back().letter = upper;
    } else {
      Half& half = letter_first || halves.back().parts.empty() ? halves.back() : next();
      if (!take_figure(half)) return std::nullopt;
    }
  }
  if (!halves.empty() && halves.back().parts.empty() && halves.back().letter == ' ')
    halves.pop_back();
  return halves;
}

std::optional<double> degrees_of(const Half& half) {
  double value = 0;
  const char units[] = {'d', 'm', 's'};
  const double per_degree[] = {1, 60, 3600};
  for (std::size_t i = 0; i < half.parts.size(); ++i) {
    const Part& part = half.parts[i];
    const bool last = i + 1 == half.parts.size();
    if (part.unit != ' ' && part.unit != units[i]) return std::nullopt;
    if ((!last && !part.whole) || (i > 0 && part.value >= 60)) return std::nullopt;
    value += part.value / per_degree[i];
  }
  const bool negative = half.minus != (half.letter == 'S' || half.letter == 'W');
  if (half.minus && half.letter != ' ') return std::nullopt;
  return negative ? -value : value;
}

}  // namespace

std::optional<Coordinates> coordinates_in(std::string_view text) {
  constexpr std::size_t kLongest = 100;
  if (text.size() > kLongest) return std::nullopt;
  auto halves = Reader(plain(text)).halves();
  if (!halves || halves->size() != 2) return std::nullopt;
  const auto is_east = [](const Half& half) { return half.letter == 'E' || half.letter == 'W'; };
  const auto is_north = [](const Half& half) { return half.letter == 'N' || half.letter == 'S'; };
  if (is_east((*halves)[0])) std::swap((*halves)[0], (*halves)[1]);
  if (is_east((*halves)[0]) || is_north((*halves)[1])) return std::nullopt;
  if (((*halves)[0].letter == ' ') != ((*halves)[1].letter == ' ')) return std::nullopt;
  const auto latitude = degrees_of((*halves)[0]), longitude = degrees_of((*halves)[1]);
  if (!latitude || !longitude || (*halves)[0].parts.empty() || (*halves)[1].parts.empty())
    return std::nullopt;
  if (std::abs(*latitude) > 90 || std::abs(*longitude) > 180) return std::nullopt;
  return Coordinates{degrees(*latitude), degrees(*longitude)};
}

}  // namespace spadework
