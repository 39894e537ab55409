// Any bytes as the table of stations: they are refused with a place and a cure, or every station
// stands somewhere on the Earth and its row is read or refused.
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

#include "climate/stations.h"
#include "fuzz/claim.h"

namespace spadework::climate {
namespace {

void claim_of_error(const Error& error) {
  claim(error.where.rfind("stations.csv", 0) == 0, "where begins with the file", error.where);
  claim(!error.message.empty(), "an error says what is wrong", error.where);
  claim(!error.hint.empty(), "an error says what would be right", error.message);
}

void claim_of_record(const Stations& stations, std::size_t i) {
  const auto record = stations.record(i);
  if (!record) return claim_of_error(record.error());
  claim(record->years >= 0 && record->winters >= 0, "years that can be");
  for (std::size_t e = 0; e < kElements; ++e) {
    const auto element = static_cast<Element>(e);
    const auto months = stations.months(i, element);
    claim(months.has_value(), "a record's months are read one by one too");
    claim(*months == record->of(element), "and alike");
    for (const auto& value : *months) claim(!value || std::isfinite(*value), "a finite figure");
    if (!stations.has_all_months(i, element)) continue;
    for (const auto& value : *months) claim(value.has_value(), "no month is missing");
  }
}

void fuzz(std::string_view bytes) {
  const auto read = read_stations(bytes);
  if (!read) return claim_of_error(read.error());
  claim(!read->all().empty(), "a table that is read has stations");
  const std::size_t some = std::min<std::size_t>(read->all().size(), 50);
  for (std::size_t i = 0; i < some; ++i) {
    const Station& station = read->all()[i];
    claim(std::abs(in_degrees(station.latitude)) <= 90.000001, "a latitude");
    claim(std::abs(in_degrees(station.longitude)) <= 180.000001, "a longitude");
    const double metres_off = in_metres(
        distance_between(station.latitude, station.longitude, degrees(48.4), degrees(-4.5)));
    claim(metres_off >= 0 && metres_off < 20'100'000, "within half the Earth's girth");
    claim(read->find(station.id).has_value(), "a station is found by its id");
    claim_of_record(*read, i);
  }
}

}  // namespace
}  // namespace spadework::climate

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  spadework::climate::fuzz({reinterpret_cast<const char*>(data), size});
  return 0;
}
