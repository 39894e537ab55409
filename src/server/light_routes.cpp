#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <limits>

#include "server/routes.h"
#include "study/pictures.h"

namespace spadework::server {
namespace {

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

Result<When> when_of(const Request& request, const study::Stand& stand) {
  When when;
  const auto day = day_of(word_of(request, "day", ""));
  if (!day) return tl::unexpected<Error>(day.error());
  when.day = *day;
  if (!when.day) {
    const auto months = months_of(word_of(request, "months", ""), stand);
    if (!months) return tl::unexpected<Error>(months.error());
    when.months = *months;
    return when;
  }
  when.months = {static_cast<int>(static_cast<unsigned>(when.day->month())) - 1};
  const std::string clock = word_of(request, "clock", "");
  if (clock.empty()) return when;
  double hour = 0;
  const auto [end, error] = std::from_chars(clock.data(), clock.data() + clock.size(), hour);
  if (error != std::errc() || end != clock.data() + clock.size() || !(hour >= 0 && hour <= 24))
    return fail(ErrorCode::kWrongUse, "clock", fmt::format("“{}” is no hour.", clock),
                "From 0 to 24.");
  when.clock_h = hour;
  return when;
}

void append_u32(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out += static_cast<char>(value >> shift & 0xFF);
}

void append_u16(std::string& out, unsigned value) {
  out += static_cast<char>(value & 0xFF);
  out += static_cast<char>(value >> 8 & 0xFF);
}

/// Hundredths of an hour; 65535: no cell.
std::string cells_of(const std::vector<float>& hours) {
  constexpr unsigned kNone = 65535;
  std::string out;
  out.reserve(2 * hours.size());
  for (const float h : hours)
    append_u16(out, std::isnan(h)
                        ? kNone
                        : static_cast<unsigned>(std::lround(static_cast<double>(h) * 100)));
  return out;
}
/// Signed hundredths; −32768: no cell.
std::string signed_cells_of(const std::vector<float>& hours) {
  constexpr int kNone = -32768;
  std::string out;
  out.reserve(2 * hours.size());
  for (const float h : hours)
    append_u16(out, static_cast<unsigned>(
                        std::isnan(h) ? kNone : std::lround(static_cast<double>(h) * 100)) &
                        0xFFFF);
  return out;
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

/// A field at a time, with its mean.
struct Shown {
  study::Shared<light::Field> field;
  std::vector<float> hours;
  double most_h = 0;  // that the open has
};

Result<Shown> shown(study::Study& study, const std::string& scheme, const When& when, double cell_m,
                    Progress* progress) {
  Shown out;
  light::SunYear sun;
  if (when.clock_h) {
    auto at = study.field_of_moment(scheme, cell_m, *when.day, *when.clock_h);
    if (!at) return tl::unexpected<Error>(at.error());
    out.field = std::make_shared<const light::Field>(std::move(*at));
    sun.days_in_month.fill(1);
  } else {
    auto of = study.field_hours(scheme, cell_m, when.day, progress);
    if (!of) return tl::unexpected<Error>(of.error());
    out.field = *of;
    const auto open = study.open_sun(scheme, when.day);
    if (!open) return tl::unexpected<Error>(open.error());
    sun = *open;
  }
  out.hours = light::field_mean(*out.field, sun, when.months);
  double days = 0;
  for (const int m : when.months) {
    const auto month = static_cast<std::size_t>(m);
    out.most_h += sun.open_sun_h[month] * sun.days_in_month[month];
    days += sun.days_in_month[month];
  }
  out.most_h /= days;
  return out;
}

/// What each cell has more than the cell at the same spot in another field.
std::vector<float> more_than(const Shown& now, const Shown& then) {
  const light::Field &a = *now.field, &b = *then.field;
  std::vector<float> more(now.hours.size(), std::numeric_limits<float>::quiet_NaN());
  for (int r = 0; r < a.rows; ++r) {
    for (int c = 0; c < a.columns; ++c) {
      const geometry::Vec2 p = a.middle(c, r);
      const int column = static_cast<int>(std::floor((p.x - b.corner.x) / b.cell_m));
      const int row = static_cast<int>(std::floor((p.y - b.corner.y) / b.cell_m));
      if (column < 0 || row < 0 || column >= b.columns || row >= b.rows) continue;
      more[a.index(c, r)] = now.hours[a.index(c, r)] - then.hours[b.index(column, row)];
    }
  }
  return more;
}

Answer difference(const Shown& now, const Shown& then, const study::Stand& stand,
                  const study::Stand& other) {
  Json head = field_head(*now.field, now.most_h, true);
  head["signed"] = true;
  head["beds"] = means_of(*now.field, now.hours, stand.garden);
  const Json before = means_of(*then.field, then.hours, other.garden);
  for (auto& [bed, hours] : head["beds"].items())
    hours = before.contains(bed) ? Json(hours.get<double>() - before[bed].get<double>()) : Json();
  return packed(head, signed_cells_of(more_than(now, then)));
}

/// The draft with an edit, or with the thing gone.
Result<garden::Draft> tried_draft(OpenGarden::Held& garden, const Json& body) {
  if (body.value("without", false)) {
    if (!body.contains("thing") || !body["thing"].is_string() || !body.contains("scheme") ||
        !body["scheme"].is_string())
      return fail(ErrorCode::kWrongUse, "", "Which thing, in which scheme?", "");
    const std::string thing = body["thing"];
    garden::Draft draft = garden.draft();
    if (draft.with_id(thing) == nullptr)
      return fail(ErrorCode::kUnknownId, "/thing", fmt::format("There is no {} any more.", thing),
                  "It may have been taken away in another window.");
    std::erase_if(draft.entries, [&](const garden::Entry& entry) {
      const garden::Value* changed = entry.table == "change" ? entry.find("thing") : nullptr;
      return entry.id == thing ||
             (changed != nullptr && changed->text() != nullptr && *changed->text() == thing);
    });
    return draft;
  }
  return draft_with(garden, body);
}

}  // namespace

Answer packed(const Json& head, const std::string& cells) {
  const std::string json = head.dump();
  Answer answer;
  answer.type = "application/octet-stream";
  append_u32(answer.body, static_cast<std::uint32_t>(json.size()));
  answer.body += json;
  answer.body += cells;
  return answer;
}

Result<std::vector<int>> months_of(const std::string& text, const study::Stand& stand) {
  auto months = text.empty() ? light::growing_months(stand.garden.site.latitude) : months_in(text);
  if (months.empty())
    return fail(ErrorCode::kWrongUse, "months", fmt::format("“{}” are no months.", text),
                "Numbers from 0 to 11 with commas between.");
  return months;
}

Result<std::optional<LocalDate>> day_of(const std::string& text) {
  if (text.empty()) return std::optional<LocalDate>();
  std::optional<LocalDate> day = parse_date(text);
  if (!day) {
    if (const auto any = parse_month_day(text))
      day = LocalDate(std::chrono::year(kReferenceYear), any->month(), any->day());
  }
  if (!day || static_cast<int>(day->year()) < 1990 || static_cast<int>(day->year()) > 2060)
    return fail(ErrorCode::kWrongUse, "day", fmt::format("“{}” is no such date.", text),
                "Such as 06-21, or 2026-06-21.");
  return day;
}

Answer field_of(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(request, **stand);
  if (!when) return error_answer(when.error());
  const double cell_m = study::drawn_cell_m((*stand)->garden);
  const auto now = shown(garden.study(), scheme, *when, cell_m, progress);
  if (!now) return error_answer(now.error());
  const std::string against = word_of(request, "against", "");
  if (!against.empty()) {
    const auto other = garden.study().stand(against);
    if (!other) return error_answer(other.error());
    const auto then = shown(garden.study(), against, *when, cell_m, progress);
    if (!then) return error_answer(then.error());
    return difference(*now, *then, **stand, **other);
  }
  Json head = field_head(*now->field, now->most_h, true);
  head["beds"] = means_of(*now->field, now->hours, (*stand)->garden);
  return packed(head, cells_of(now->hours));
}

Answer try_edit(OpenGarden::Held& garden, const Request& request) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const auto tried = tried_draft(garden, *body);
  if (!tried) return error_answer(tried.error());
  const std::string scheme = (*body)["scheme"], thing = (*body)["thing"];
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto months = months_of(body->value("months", ""), **stand);
  if (!months) return error_answer(months.error());
  light::FieldMovesOptions options;
  options.threads = garden.workshop().threads;
  options.every = std::clamp(body->value("every", 1), 1, 8);
  options.months = *months;
  const auto field = garden.study().field_moved(scheme, study::drawn_cell_m((*stand)->garden),
                                                *tried, thing, options);
  if (!field) return error_answer(field.error());
  const auto open = garden.study().open_sun(scheme);
  if (!open) return error_answer(open.error());
  const std::vector<float> hours = light::field_mean(*field, *open, *months);
  Json head = field_head(*field, 0, options.every == 1);
  head["beds"] = means_of(*field, hours, (*stand)->garden);
  return packed(head, cells_of(hours));
}

}  // namespace spadework::server
