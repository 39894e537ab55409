#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>

#include "server/routes.h"

namespace spadework::server {
namespace {

constexpr double kCell_m = 0.1;
constexpr double kMostCells = 300'000;

/// As fine as the screen shows: in large gardens coarser.
double cell_of(const study::Stand& stand) {
  const geometry::Box2 box = garden::extent(stand.garden);
  return std::max(kCell_m, std::sqrt(box.width() * box.height() / kMostCells));
}

/// `3,4,5`: months from 0; nothing for anything else.
std::vector<int> months_in(const std::string& text) {
  std::vector<int> months;
  for (const char *at = text.data(), *end = at + text.size(); at < end;) {
    int month = -1;
    const auto [stop, error] = std::from_chars(at, end, month);
    if (error != std::errc() || month < 0 || month > 11) return {};
    if (std::find(months.begin(), months.end(), month) == months.end()) months.push_back(month);
    if (stop < end && (*stop != ',' || stop + 1 == end)) return {};
    at = stop + 1;
  }
  return months;
}

/// What a field is shown of: months, a day, or a moment of it.
struct When {
  std::vector<int> months;
  std::optional<LocalDate> day;
  std::optional<double> clock_h;
};

Result<When> when_of(const std::string& months, const std::string& day, const std::string& clock,
                     const study::Stand& stand) {
  When when;
  if (!day.empty()) {
    when.day = parse_date(day);
    if (!when.day) {
      if (const auto any = parse_month_day(day))
        when.day = LocalDate(std::chrono::year(kReferenceYear), any->month(), any->day());
    }
    if (!when.day || static_cast<int>(when.day->year()) < 1990 ||
        static_cast<int>(when.day->year()) > 2060)
      return fail(ErrorCode::kWrongUse, "day", fmt::format("“{}” is no such date.", day),
                  "Such as 06-21, or 2026-06-21.");
    when.months = {static_cast<int>(static_cast<unsigned>(when.day->month())) - 1};
    if (clock.empty()) return when;
    double hour = 0;
    const auto [end, error] = std::from_chars(clock.data(), clock.data() + clock.size(), hour);
    if (error != std::errc() || end != clock.data() + clock.size() || !(hour >= 0 && hour <= 24))
      return fail(ErrorCode::kWrongUse, "clock", fmt::format("“{}” is no hour.", clock),
                  "From 0 to 24.");
    when.clock_h = hour;
    return when;
  }
  when.months =
      months.empty() ? light::growing_months(stand.garden.site.latitude) : months_in(months);
  if (when.months.empty())
    return fail(ErrorCode::kWrongUse, "months", fmt::format("“{}” are no months.", months),
                "Numbers from 0 to 11 with commas between.");
  return when;
}

void append_u32(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out += static_cast<char>(value >> shift & 0xFF);
}

/// A field in bytes: how long the head is (4), the head as JSON, then for each cell, row by row
/// from the lower left, hundredths of an hour in 2 bytes, the lower one first; 65535: no cell.
Answer packed(const Json& head, const std::vector<float>& hours) {
  constexpr unsigned kNone = 65535;
  const std::string json = head.dump();
  Answer answer;
  answer.type = "application/octet-stream";
  answer.body.reserve(4 + json.size() + 2 * hours.size());
  append_u32(answer.body, static_cast<std::uint32_t>(json.size()));
  answer.body += json;
  for (const float h : hours) {
    const unsigned value =
        std::isnan(h) ? kNone : static_cast<unsigned>(std::lround(static_cast<double>(h) * 100));
    answer.body += static_cast<char>(value & 0xFF);
    answer.body += static_cast<char>(value >> 8 & 0xFF);
  }
  return answer;
}

/// The mean of each bed's cells.
Json means_of(const light::Field& field, const std::vector<float>& hours,
              const garden::Garden& garden) {
  std::vector<double> sums(garden.beds.size()), cells(garden.beds.size());
  for (std::size_t i = 0; i < hours.size(); ++i) {
    if (field.lies_on[i] < 0 || std::isnan(hours[i])) continue;
    sums[static_cast<std::size_t>(field.lies_on[i])] += static_cast<double>(hours[i]);
    cells[static_cast<std::size_t>(field.lies_on[i])] += 1;
  }
  Json beds = Json::object();
  for (std::size_t b = 0; b < garden.beds.size(); ++b)
    if (cells[b] > 0) beds[garden.beds[b].id] = sums[b] / cells[b];
  return beds;
}

Json field_head(const light::Field& field, double most_h, bool exact) {
  return {{"corner_m", {field.corner.x, field.corner.y}},
          {"cell_m", field.cell_m},
          {"columns", field.columns},
          {"rows", field.rows},
          {"most_h", most_h},
          {"exact", exact}};
}

}  // namespace

Answer field_of(OpenGarden::Held& garden, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(word_of(request, "months", ""), word_of(request, "day", ""),
                            word_of(request, "clock", ""), **stand);
  if (!when) return error_answer(when.error());
  const double cell = cell_of(**stand);
  light::Field moment;
  const light::Field* field = nullptr;
  study::Shared<light::Field> kept;
  light::SunYear sun;
  if (when->clock_h) {
    auto at = garden.study().field_of_moment(scheme, cell, *when->day, *when->clock_h);
    if (!at) return error_answer(at.error());
    moment = std::move(*at);
    field = &moment;
    sun.days_in_month.fill(1);
  } else {
    auto of = when->day ? garden.study().field_of_day(scheme, cell, *when->day)
                        : garden.study().field(scheme, cell);
    if (!of) return error_answer(of.error());
    kept = *of;
    field = kept.get();
    const auto open = garden.study().open_sun(scheme, when->day);
    if (!open) return error_answer(open.error());
    sun = *open;
  }
  const std::vector<float> hours = light::field_mean(*field, sun, when->months);
  double most = 0, days = 0;
  for (const int m : when->months) {
    const auto month = static_cast<std::size_t>(m);
    most += sun.open_sun_h[month] * sun.days_in_month[month];
    days += sun.days_in_month[month];
  }
  Json head = field_head(*field, most / days, true);
  head["beds"] = means_of(*field, hours, (*stand)->garden);
  return packed(head, hours);
}

Answer try_edit(OpenGarden::Held& garden, const Request& request) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const auto edits = edits_of(garden.draft(), *body);
  if (!edits) return error_answer(edits.error());
  const auto edited = garden.edited(*edits);
  if (!edited) return error_answer(edited.error());
  if (!edited->problems.empty()) return error_answer(edited->problems[0], edited->problems);
  const std::string scheme = (*body)["scheme"], thing = (*body)["thing"];
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(body->value("months", ""), "", "", **stand);
  if (!when) return error_answer(when.error());
  light::FieldMovesOptions options;
  options.threads = garden.workshop().threads;
  options.every = std::clamp(body->value("every", 1), 1, 8);
  options.months = when->months;
  const auto field =
      garden.study().field_moved(scheme, cell_of(**stand), edited->draft, thing, options);
  if (!field) return error_answer(field.error());
  const auto open = garden.study().open_sun(scheme);
  if (!open) return error_answer(open.error());
  const std::vector<float> hours = light::field_mean(*field, *open, when->months);
  Json head = field_head(*field, 0, options.every == 1);
  head["beds"] = means_of(*field, hours, (*stand)->garden);
  return packed(head, hours);
}

}  // namespace spadework::server
