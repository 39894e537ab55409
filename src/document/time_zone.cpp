#include "document/time_zone.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <fstream>
#include <sstream>

#include "base/text.h"

namespace spadework::document {
namespace {

constexpr int kFirstYear = 1990;
constexpr int kLastYear = 2060;
constexpr std::string_view kFolder = "/usr/share/zoneinfo/";

struct Listed {
  std::vector<TimeZone::Period> periods;
  bool ends_early = false;  // the database lists no changes up to kLastYear
};

/// What the database lists from kFirstYear on.
Listed listed_periods(const date::time_zone& zone) {
  Listed out;
  date::sys_seconds t = date::sys_days{date::year{kFirstYear} / 1 / 1};
  const date::sys_seconds stop = date::sys_days{date::year{kLastYear + 1} / 1 / 1};
  while (t < stop) {
    const date::sys_info info = zone.get_info(t);
    out.periods.push_back({UtcTime{static_cast<double>(t.time_since_epoch().count())},
                           static_cast<int>(info.offset.count()), info.save.count() != 0});
    if (info.end <= t) break;
    out.ends_early = info.end > stop;
    t = info.end;
  }
  return out;
}

/// The last line of a zone's file: its rule for the years to come.
std::string rule_for_later(std::string_view name) {
  std::ifstream file(std::string(kFolder) + std::string(name), std::ios::binary);
  std::stringstream bytes;
  bytes << file.rdbuf();
  std::string all = bytes.str();
  if (all.substr(0, 4) != "TZif" || all.size() < 2 || all.back() != '\n') return {};
  all.pop_back();
  const std::size_t line = all.rfind('\n');
  return line == std::string::npos ? std::string() : all.substr(line + 1);
}

/// Daylight saving is the time with the clocks forward, also where the database calls the winter's
/// time the exception (Europe/Dublin).
void mark_daylight_saving(std::vector<TimeZone::Period>& periods) {
  std::vector<TimeZone::Period> marked = periods;
  for (std::size_t i = 0; i < periods.size(); ++i) {
    for (const std::size_t other : {i - 1, i + 1}) {
      if (other >= periods.size()) continue;
      if (periods[i].daylight_saving == periods[other].daylight_saving) continue;
      marked[i].daylight_saving = periods[i].offset_s > periods[other].offset_s;
      break;
    }
  }
  periods = std::move(marked);
}

bool may_be_a_name(std::string_view name) {
  return !name.empty() && name.size() <= 64 && name.find("..") == std::string_view::npos &&
         name.find_first_not_of(
             "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
             "/_+-") == std::string_view::npos;
}

/// The nearest name: with the same place ("Europe/Auckland"), of the whole, or of a place's name
/// alone ("Paris").
std::string nearest_zone(std::string_view typed, const std::vector<std::string>& names) {
  const std::string_view place = typed.substr(typed.rfind('/') + 1);
  for (const std::string& name : names) {
    if (!place.empty() && name.ends_with("/" + std::string(place))) return name;
  }
  std::string near = nearest_word(typed, names);
  if (!near.empty()) return near;
  std::vector<std::string> places;
  for (const std::string& name : names) places.push_back(name.substr(name.rfind('/') + 1));
  near = nearest_word(place, places);
  const auto found = std::find(places.begin(), places.end(), near);
  return found == places.end() ? std::string()
                               : names[static_cast<std::size_t>(found - places.begin())];
}

}  // namespace

Result<std::vector<std::string>> time_zone_names() {
  try {
    std::vector<std::string> names;
    for (const auto& zone : date::get_tzdb().zones) names.push_back(zone.name());
    return names;
  } catch (const std::exception&) {
    return fail(ErrorCode::kCannotRead, std::string(kFolder),
                "the system's time zones could not be read", "install the package tzdata");
  }
}

Result<TimeZone> load_time_zone(std::string_view name) {
  const auto names = time_zone_names();
  if (!names) return tl::unexpected(names.error());
  const bool known =
      may_be_a_name(name) && std::find(names->begin(), names->end(), name) != names->end();
  if (!known) {
    const std::string near = nearest_zone(name.substr(0, 64), *names);
    return fail(ErrorCode::kUnknownKind, "", fmt::format("\"{}\" is no time zone", name),
                near.empty() ? "time zones are named after a place, such as \"Europe/Paris\""
                             : fmt::format("did you mean \"{}\"?", near));
  }
  try {
    Listed listed = listed_periods(*date::locate_zone(std::string(name)));
    if (listed.ends_early) {
      for (const auto& period :
           periods_of_rule(rule_for_later(name), listed.periods.back().since, kLastYear)) {
        listed.periods.push_back(period);
      }
    }
    mark_daylight_saving(listed.periods);
    return TimeZone(std::string(name), std::move(listed.periods));
  } catch (const std::exception&) {
    return fail(ErrorCode::kCannotRead, std::string(kFolder) + std::string(name),
                fmt::format("the time zone \"{}\" could not be read", name),
                "install the package tzdata again");
  }
}

}  // namespace spadework::document
