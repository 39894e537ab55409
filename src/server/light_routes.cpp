#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "server/routes.h"
#include "server/when.h"
#include "study/pictures.h"

namespace spadework::server {
namespace {

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

Json bed_json(const study::FieldShown& shown, const garden::Garden& garden) {
  const auto means = light::bed_means(*shown.field, shown.hours, garden.beds.size());
  Json beds = Json::object();
  for (std::size_t b = 0; b < means.size(); ++b)
    if (means[b]) beds[garden.beds[b].id] = *means[b];
  return beds;
}

Json field_head(const study::FieldShown& shown, const garden::Garden& garden, bool exact) {
  const light::Field& field = *shown.field;
  return {{"corner_m", {field.corner.x, field.corner.y}},
          {"cell_m", field.cell_m},
          {"columns", field.columns},
          {"rows", field.rows},
          {"most_h", shown.open_h},
          {"exact", exact},
          {"beds", bed_json(shown, garden)}};
}

Answer difference(const study::FieldShown& now, const study::FieldShown& then,
                  const study::Stand& stand, const study::Stand& other, bool exact) {
  Json head = field_head(now, stand.garden, exact);
  head["signed"] = true;
  const Json before = bed_json(then, other.garden);
  for (auto& [bed, hours] : head["beds"].items())
    hours = before.contains(bed) ? Json(hours.get<double>() - before[bed].get<double>()) : Json();
  return packed(head, signed_cells_of(study::more_than(now, then)));
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

Answer field_of(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(request, **stand);
  if (!when) return error_answer(when.error());
  const double cell_m = study::drawn_cell_m((*stand)->garden);
  const auto now = study::field_shown(garden.study(), scheme, *when, cell_m, progress);
  if (!now) return error_answer(now.error());
  const std::string against = word_of(request, "against", "");
  if (!against.empty()) {
    const auto other = garden.study().stand(against);
    if (!other) return error_answer(other.error());
    const auto then = study::field_shown(garden.study(), against, *when, cell_m, progress);
    if (!then) return error_answer(then.error());
    return difference(*now, *then, **stand, **other, when->every == 1);
  }
  return packed(field_head(*now, (*stand)->garden, when->every == 1), cells_of(now->hours));
}

Answer try_edit(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const auto tried = tried_draft(garden, *body);
  if (!tried) return error_answer(tried.error());
  const std::string scheme = (*body)["scheme"], thing = (*body)["thing"];
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(*body, **stand);
  if (!when) return error_answer(when.error());
  const auto with = garden.study().stand_of(*tried, scheme);
  if (!with) return error_answer(with.error());
  const double cell_m = study::drawn_cell_m((*stand)->garden);
  light::FieldMovesOptions options;
  options.threads = garden.workshop().threads;
  options.every = when->every;
  options.months = when->months;
  options.progress = progress;
  auto field = when->day
                   ? garden.study().field_with(scheme, cell_m, *with, *when->day, when->clock_h)
                   : garden.study().field_moved(scheme, cell_m, *with, thing, options);
  if (!field) return error_answer(field.error());
  const auto shown = study::field_shown(garden.study(), scheme, *when,
                                        std::make_shared<const light::Field>(std::move(*field)));
  if (!shown) return error_answer(shown.error());
  return packed(field_head(*shown, with->garden, options.every == 1), cells_of(shown->hours));
}

}  // namespace spadework::server
