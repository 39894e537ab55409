#include "exchange/garden_weather.h"

#include <fmt/format.h>

#include "exchange/exchange.h"

namespace spadework::exchange {
namespace {

/// As the garden is found: a file belongs to a place, not to a proposal.
std::vector<std::string> doubts_of(study::Study& study, const climate::Weather& weather,
                                   std::optional<Units> units) {
  const auto stand = study.stand("found");
  if (!stand) return {};  // told by whoever asks
  const garden::Site& site = (*stand)->garden.site;
  const Units own = site.imperial ? Units::kImperial : Units::kMetric;
  return file_doubts(weather, site.latitude, site.longitude,
                     climate::elevation_of((*stand)->garden, study.stations()),
                     units.value_or(own));
}

/// `days.csv:3:12` as "line 3: ".
std::string line_says(const std::string& where, const std::string& name) {
  if (!where.starts_with(name + ":")) return "";
  const std::string rest = where.substr(name.size() + 1);
  return "line " + rest.substr(0, rest.find(':')) + ": ";
}

}  // namespace

Result<bool> give_weather(study::Study& study, std::string_view bytes, const std::string& name,
                          std::optional<Units> units) {
  auto weather = read_weather(bytes, name);
  if (!weather) return tl::unexpected<Error>(weather.error());
  auto doubts = doubts_of(study, *weather, units);
  study.set_weather(std::move(*weather), std::move(doubts));
  return true;
}

std::optional<Error> give_kept_weather(study::Study& study, const Result<std::string>& bytes,
                                       std::optional<Units> units) {
  const std::string name = climate::weather_file_of(study.draft());
  if (name.empty()) {
    study.set_weather(std::nullopt);
    return std::nullopt;
  }
  const auto given =
      bytes ? give_weather(study, *bytes, name, units) : tl::unexpected<Error>(bytes.error());
  if (given) return std::nullopt;
  const Error& why = given.error();
  if (why.code == ErrorCode::kUnknownId)
    study.set_weather(std::nullopt);
  else
    study.set_weather(std::nullopt, {fmt::format("The weather file {} cannot be read ({}{})", name,
                                                 line_says(why.where, name), why.message)});
  return why;
}

}  // namespace spadework::exchange
