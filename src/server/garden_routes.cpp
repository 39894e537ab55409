#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <set>

#include "garden/plan_drawing.h"
#include "garden/schema.h"
#include "geometry/symbols.h"
#include "light/light_drawing.h"
#include "server/routes.h"
#include "sheets/sheets.h"

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

/// The plan in layers, as paper of that scale: the frame's upper left corner is its origin.
geometry::Drawing plan_drawing(const study::Stand& stand, const garden::Garden* found,
                               const facts::Catalogue& catalogue, double mm_per_m,
                               int day_of_year) {
  const geometry::Box2 frame = light::sheet_frame(stand.garden);
  geometry::PlanOnPaper map;
  map.mm_per_m = mm_per_m;
  map.origin = {-frame.low.x * mm_per_m, frame.high.y * mm_per_m};
  const garden::PlanView view{stand.garden, found, stand.surface, catalogue, map, day_of_year};
  geometry::Drawing drawing;
  drawing.width_mm = frame.width() * mm_per_m;
  drawing.height_mm = frame.height() * mm_per_m;
  drawing.title = stand.garden.site.title;
  drawing.paper = geometry::Paint{geometry::Role::kPaper, 0};
  garden::draw_ground_cover(view, drawing.root.add_group("ground", "paths and areas"));
  garden::draw_in_ground(view, drawing.root.add_group("in-ground", "what the ground hides"));
  garden::draw_levels(view, drawing.root.add_group("levels", "contours"));
  if (stand.garden.boundary.size() >= 3) {
    geometry::Mark mark;
    mark.id = "boundary";
    mark.title = "boundary";
    append_boundary(drawing.root, mark, map.paper(stand.garden.boundary));
  }
  garden::draw_things(view, drawing.root.add_group("things", "what stands in the garden"));
  garden::draw_sights(view, drawing.root.add_group("sights", "lines of sight"));
  garden::LabelRoom room;
  garden::draw_names(view, room, drawing.root.add_group("names", "names"));
  return drawing;
}

/// Carries out what a request asks of the store, and answers with the head.
template <class Change>
Answer change(const Request& request, Change act) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const Json id = body->value("command", Json()), on = body->value("change", Json());
  if (!id.is_string() || id.get<std::string>().empty() || id.get<std::string>().size() > 100 ||
      !on.is_number_integer())
    return error_answer({ErrorCode::kWrongUse, "/command",
                         "A change carries an id of its own and what it was made on.", ""});
  return act(*body, store::Command{id.get<std::string>(), on.get<std::int64_t>()});
}

Answer told(OpenGarden::Held& garden, const Result<store::Head>& head,
            const std::vector<std::string>& made = {}) {
  if (const auto taken = garden.take(head); !taken) return error_answer(taken.error());
  return json_answer({{"head", head_json(garden)}, {"made", made}});
}

std::string title_of(const garden::Draft& draft) {
  const garden::Entry* entry = draft.single("garden");
  return entry == nullptr ? "" : entry->text("title");
}

}  // namespace

Answer state_of(OpenGarden::Held& garden, const Request& request) {
  const auto state = state_json(garden, word_of(request, "scheme", "proposed"));
  return state ? json_answer(*state) : error_answer(state.error());
}

Answer sheet_of(OpenGarden::Held& garden, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto found = garden.study().stand("found");
  if (!found) return error_answer(found.error());
  const double mm_per_m = std::clamp(number_of(request, "mm_per_m", 20), kLeastMmPerM, kMostMmPerM);
  const bool southern = (*stand)->garden.site.latitude < degrees(0);
  const double midsummer = southern ? 355 : 172;  // in leaf
  const int day =
      static_cast<int>(std::clamp(number_of(request, "day_of_year", midsummer), 1.0, 365.0));
  const geometry::Drawing drawing =
      plan_drawing(**stand, scheme == "found" ? nullptr : &(*found)->garden,
                   garden.workshop().known.catalogue, mm_per_m, day);
  sheets::SvgOptions options;
  options.embed_fonts = false;
  const std::scoped_lock lock(garden.workshop().fonts_busy);
  auto svg = sheets::to_svg(drawing, garden.workshop().fonts, options);
  if (!svg) return error_answer(svg.error());
  return {200, "image/svg+xml", std::move(*svg), ""};
}

Answer edit(OpenGarden::Held& garden, const Request& request) {
  return change(request, [&](const Json& body, const store::Command& command) {
    if (command.change != garden.head().change) {
      // Sent again, or someone else was quicker: the store knows.
      const auto head = garden.file().write(command, garden.text(), garden.head().title, "");
      return told(garden, head, made_again(body));
    }
    const auto done = edits_done(garden, body);
    if (!done) return error_answer(done.error());
    const auto& [text, draft, problems] = done->document;
    if (!problems.empty()) return error_answer(problems[0], problems);
    for (const std::string& scheme : garden::scheme_names(draft)) {
      if (const auto stands = garden::resolve(draft, scheme); !stands)
        return error_answer(stands.error());
    }
    return told(garden,
                garden.file().write(command, text, title_of(draft), edit_says(body, done->made)),
                done->made);
  });
}

Answer step(OpenGarden::Held& garden, const Request& request) {
  return change(request, [&](const Json& body, const store::Command& command) {
    const std::string step = body.value("step", "");
    if (step == "undo") return told(garden, garden.file().undo(command));
    if (step == "redo") return told(garden, garden.file().redo(command));
    if (step == "name") return told(garden, garden.file().name(command, body.value("name", "")));
    if (step == "bring_back" && body.contains("revision") && body["revision"].is_number_integer())
      return told(garden, garden.file().bring_back(command, body["revision"].get<std::int64_t>()));
    return error_answer({ErrorCode::kWrongUse, "/step", "No such step.", ""});
  });
}

Answer revisions_of(OpenGarden::Held& garden) {
  constexpr int kMost = 200;
  const auto revisions = garden.file().revisions(kMost);
  if (!revisions) return error_answer(revisions.error());
  Json rows = Json::array();
  for (const store::Revision& revision : *revisions)
    rows.push_back({{"id", revision.id},
                    {"says", revision.says},
                    {"made", revision.made},
                    {"name", revision.name}});
  return json_answer({{"head", head_json(garden)}, {"revisions", rows}});
}

Answer document_of(OpenGarden::Held& garden, const std::string& id) {
  return {200, "application/toml", garden.text(), id + ".toml"};
}

namespace {

const char* type_name(garden::ValueType type) {
  using T = garden::ValueType;
  constexpr std::pair<T, const char*> kNames[] = {{T::kNumber, "number"},
                                                  {T::kWhole, "whole"},
                                                  {T::kShare, "share"},
                                                  {T::kLength, "length"},
                                                  {T::kStem, "stem"},
                                                  {T::kAngle, "angle"},
                                                  {T::kTemperature, "temperature"},
                                                  {T::kText, "text"},
                                                  {T::kYesNo, "yes_no"},
                                                  {T::kDate, "date"},
                                                  {T::kDay, "day"},
                                                  {T::kId, "id"},
                                                  {T::kReference, "reference"},
                                                  {T::kChoice, "choice"},
                                                  {T::kWord, "word"},
                                                  {T::kFreeWord, "free_word"},
                                                  {T::kPlace, "place"},
                                                  {T::kLine, "line"},
                                                  {T::kOutline, "outline"},
                                                  {T::kSpot, "spot"},
                                                  {T::kSize, "size"},
                                                  {T::kHorizonPoint, "horizon_point"},
                                                  {T::kAmount, "amount"},
                                                  {T::kTimeZone, "time_zone"},
                                                  {T::kList, "list"},
                                                  {T::kOneOrMany, "one_or_many"},
                                                  {T::kRecord, "record"},
                                                  {T::kMap, "map"},
                                                  {T::kTie, "tie"},
                                                  {T::kReading, "reading"}};
  for (const auto& [of, name] : kNames)
    if (of == type) return name;
  return "text";
}

Json key_json(const garden::KeySchema& key);

Json type_json(const garden::TypeSchema& type) {
  Json json = {{"type", type_name(type.type)}};
  if (std::isfinite(type.low)) json["low"] = type.low;
  if (std::isfinite(type.high)) json["high"] = type.high;
  if (!type.words.empty()) json["words"] = type.words;
  if (!type.tables.empty()) json["tables"] = type.tables;
  if (!type.catalogue.empty()) json["catalogue"] = type.catalogue;
  for (const garden::KeySchema& field : type.fields) json["fields"].push_back(key_json(field));
  if (!type.item.empty()) json["item"] = type_json(type.item[0]);
  return json;
}

Json key_json(const garden::KeySchema& key) {
  Json json = type_json(key.type);
  json["name"] = key.name;
  json["called"] = garden::key_says(key.name);
  json["needed"] = key.needed;
  json["default"] = key.default_says;
  json["says"] = key.says;
  return json;
}

/// The catalogues whose words a value of the type, or a part of it, can be.
void note_catalogues(const garden::TypeSchema& type, std::set<std::string>& names) {
  if (!type.catalogue.empty()) names.insert(type.catalogue);
  for (const garden::KeySchema& field : type.fields) note_catalogues(field.type, names);
  for (const garden::TypeSchema& item : type.item) note_catalogues(item, names);
}

}  // namespace

Answer schema_answer(const Workshop& workshop) {
  Json tables = Json::array();
  std::set<std::string> names;
  for (const garden::TableSchema& table : garden::schema()) {
    Json keys = Json::array();
    for (const garden::KeySchema& key : table.keys) {
      keys.push_back(key_json(key));
      note_catalogues(key.type, names);
    }
    tables.push_back(
        {{"name", table.name}, {"thing", table.thing}, {"says", table.says}, {"keys", keys}});
  }
  Json catalogues = Json::object();
  for (const std::string& name : names)
    if (workshop.words.words_of) catalogues[name] = workshop.words.words_of(name);
  return json_answer({{"tables", tables}, {"catalogues", catalogues}});
}

}  // namespace spadework::server
