// Figures: plain ones, and lengths, angles and temperatures with their units.
#include <fmt/format.h>

#include <cmath>

#include "document/reading.h"
#include "document/units.h"

namespace spadework::document {
namespace {

std::string_view unit_of(ValueType type) {
  switch (type) {
    case ValueType::kLength:
    case ValueType::kStem:
      return " m";
    case ValueType::kAngle:
      return "°";
    case ValueType::kTemperature:
      return " °C";
    default:
      return "";
  }
}

std::string with_unit(double value, ValueType type) {
  return short_number(value) + std::string(unit_of(type));
}

std::string range_says(const TypeSchema& type) {
  if (std::isinf(type.low) && std::isinf(type.high)) return "any figure";
  if (std::isinf(type.high)) return "from " + with_unit(type.low, type.type) + " up";
  return fmt::format("from {} to {}", with_unit(type.low, type.type),
                     with_unit(type.high, type.type));
}

/// What the user may have meant by a figure outside the range.
std::string range_hint(const Asked& asked, double value, const std::string& typed) {
  const TypeSchema& type = asked.type;
  const auto fits = [&](double v) { return v >= type.low && v <= type.high && v > 0; };
  if (type.type == ValueType::kLength || type.type == ValueType::kStem) {
    const bool plain =
        typed.find('"') == std::string::npos && typed.find('\'') == std::string::npos;
    if (plain && value >= 10 && fits(value / 100)) {
      return fmt::format("did you mean \"{} cm\"? A figure without a unit is in metres", typed);
    }
    if (plain && value >= 10 && fits(value / 1000)) {
      return fmt::format("did you mean \"{} mm\"? A figure without a unit is in metres", typed);
    }
  }
  if (type.type == ValueType::kShare && fits(value / 100)) {
    return fmt::format("did you mean {}? Shares go from 0 to 1", short_number(value / 100));
  }
  return fmt::format("write a figure {}", range_says(type));
}

std::optional<Value> checked(Reading& reading, const Asked& asked, double figure, Value value) {
  const TypeSchema& type = asked.type;
  if (!std::isfinite(figure)) {
    reading.problems.tell(asked.at, ErrorCode::kImpossibleValue,
                          fmt::format("{} is no figure that can be", asked.name),
                          fmt::format("write a figure {}", range_says(type)));
    return std::nullopt;
  }
  if (figure < type.low || figure > type.high) {
    const std::string shown = value.typed.empty() ? short_number(figure) : value.typed;
    const bool as_text = shown.front() == '"' || shown.front() == '\'';
    const std::string is = as_text ? fmt::format("{} ({})", shown, with_unit(figure, type.type))
                                   : with_unit(figure, type.type);
    reading.problems.tell(asked.at, ErrorCode::kImpossibleValue,
                          fmt::format("{} is {}; it can be {}", asked.name, is, range_says(type)),
                          range_hint(asked, figure, shown));
    return std::nullopt;
  }
  value.is = figure;
  return value;
}

template <class T>
Result<double> plain(const Result<T>& result, double (*in_unit)(T)) {
  if (!result) return tl::unexpected(result.error());
  return in_unit(*result);
}

Result<double> parse_with_unit(ValueType type, std::string_view text) {
  switch (type) {
    case ValueType::kLength:
      return plain<Length>(parse_length(text), in_metres);
    case ValueType::kStem:
      return plain<Length>(parse_stem(text), in_metres);
    case ValueType::kAngle:
      return plain<Angle>(parse_angle(text), in_degrees);
    default:
      return plain<Temperature>(parse_temperature(text), in_celsius);
  }
}

bool takes_unit(ValueType type) {
  return type == ValueType::kLength || type == ValueType::kStem || type == ValueType::kAngle ||
         type == ValueType::kTemperature;
}

std::optional<Value> read_text_figure(Reading& reading, const Asked& asked, const TomlNode& node,
                                      Value value) {
  const std::string& text = *node.text();
  for (std::size_t i = 0; i < asked.type.words.size(); ++i) {
    if (asked.type.words[i] != text) continue;
    // Compass words stand in the order of the compass and mean bearings.
    const bool compass = asked.type.type == ValueType::kAngle;
    if (compass) {
      value.is = 45.0 * static_cast<double>(i);
    } else {
      value.is = text;
    }
    return value;
  }
  if (!takes_unit(asked.type.type)) return wrong_type(reading, asked, node);
  auto figure = parse_with_unit(asked.type.type, text.size() > 80 ? text.substr(0, 80) : text);
  if (!figure) {
    const Error& error = figure.error();
    reading.problems.tell(asked.at, error.code, fmt::format("{}: {}", asked.name, error.message),
                          reading.problems.hint_for(text, asked.type.words, error.hint));
    return std::nullopt;
  }
  return checked(reading, asked, *figure, std::move(value));
}

}  // namespace

std::optional<Value> read_figure(Reading& reading, const Asked& asked, const TomlNode& node) {
  Value value;
  value.where = node.where;
  value.typed = node.typed;
  if (node.text() != nullptr) return read_text_figure(reading, asked, node, std::move(value));
  double figure = 0;
  if (const auto* whole = std::get_if<std::int64_t>(&node.is)) {
    figure = static_cast<double>(*whole);
  } else if (const auto* number = std::get_if<double>(&node.is)) {
    figure = *number;
  } else {
    return wrong_type(reading, asked, node);
  }
  if (asked.type.type == ValueType::kWhole && std::isfinite(figure) &&
      figure != std::floor(figure)) {
    return wrong_type(reading, asked, node);
  }
  return checked(reading, asked, figure, std::move(value));
}

}  // namespace spadework::document
