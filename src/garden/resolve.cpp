// From a draft to the garden of one scheme: which entries it has, with their changes applied.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "garden/build.h"
#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::garden {
namespace {

bool is_thing(const Entry& entry) {
  const TableSchema* table = find_table(entry.table);
  return table != nullptr && table->thing;
}

bool says_yes(const Entry& entry, std::string_view key) {
  const Value* value = entry.find(key);
  return value != nullptr && value->yes_no() != nullptr && *value->yes_no();
}

/// Whether the entry belongs to the scheme, removed or not.
bool belongs(const Entry& entry, const std::string& scheme) {
  const std::string own = entry.text("scheme");
  if (scheme == "found") return entry.text("status") != "proposed" && own.empty();
  return own.empty() || own == scheme;
}

bool applies(const Entry& change, const std::string& scheme) {
  if (scheme == "found") return false;
  const std::string own = change.text("scheme");
  return own.empty() || own == scheme;
}

/// Those for every scheme first, then the scheme's own, which say otherwise.
std::vector<const Entry*> changes_of(const Draft& draft, const std::string& scheme) {
  std::vector<const Entry*> changes;
  for (const bool own : {false, true}) {
    for (const Entry& entry : draft.entries) {
      if (entry.table == "change" && applies(entry, scheme) && entry.text("scheme").empty() != own)
        changes.push_back(&entry);
    }
  }
  return changes;
}

/// The keys that a change leaves to itself.
bool belongs_to_change(const std::string& key) {
  return key == "thing" || key == "scheme" || key == "id" || key == "note" || key == "phase";
}

void apply(const Entry& change, Entry& thing) {
  for (const Field& field : change.fields) {
    if (belongs_to_change(field.key)) continue;
    const std::vector<std::string>& rivals = rivals_of(field.key);
    std::erase_if(thing.fields, [&](const Field& old) {
      return std::find(rivals.begin(), rivals.end(), old.key) != rivals.end();
    });
    const auto old = std::find_if(thing.fields.begin(), thing.fields.end(),
                                  [&](const Field& f) { return f.key == field.key; });
    if (old != thing.fields.end())
      *old = field;
    else
      thing.fields.push_back(field);
  }
}

void drop_removed(std::vector<Entry>& entries, std::vector<Mark>& marks) {
  std::size_t kept = 0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (is_thing(entries[i]) && says_yes(entries[i], "removed")) continue;
    if (kept != i) entries[kept] = std::move(entries[i]);
    marks[kept++] = marks[i];
  }
  entries.resize(kept);
  marks.resize(kept);
}

using PlacesOfPoints = std::map<std::string, const Value*, std::less<>>;

/// Where each point is told to stand: the survey's fixed ones, then the document's, of which those
/// of the scheme, with their changes, have the last word.
PlacesOfPoints told_points(const Draft& draft, const Garden& garden) {
  PlacesOfPoints told;
  const Entry* survey = draft.single("survey");
  const Value* fixed = survey == nullptr ? nullptr : survey->find("fixed");
  if (fixed != nullptr) {
    for (const Field& point : *fixed->record()) told[point.key] = &point.value;
  }
  for (const auto* entries : {&draft.entries, &garden.entries}) {
    for (const Entry& entry : *entries) {
      const Value* at = entry.table == "point" ? entry.find("at") : nullptr;
      if (at != nullptr) told[entry.id] = at;
    }
  }
  return told;
}

/// Points that stand at other points are followed; those that lead nowhere are left out.
PointMap points_of(const PlacesOfPoints& told) {
  PointMap points;
  for (const auto& [id, first] : told) {
    const Value* at = first;
    for (std::size_t steps = 0; at->text() != nullptr && steps < told.size(); ++steps) {
      const auto next = told.find(*at->text());
      if (next == told.end()) break;
      at = next->second;
    }
    if (at->list() != nullptr) points[id] = place_of(*at, points);
  }
  return points;
}

/// A place that names a point of which only tape lengths are known.
Result<void> check_places(const Garden& garden, const PointMap& points) {
  for (const Entry& entry : garden.entries) {
    // What only looks at a point needs no place yet.
    if (entry.table == "view" || entry.table == "hide" || entry.table == "watch") continue;
    const TableSchema* table = find_table(entry.table);
    for (const Field& field : entry.fields) {
      const KeySchema* key = table == nullptr ? nullptr : find_key(*table, field.key);
      if (key == nullptr) continue;
      const bool list = key->type.type == ValueType::kLine || key->type.type == ValueType::kOutline;
      if (!list && key->type.type != ValueType::kPlace) continue;
      for (const Value& place : list ? *field.value.list() : List{field.value}) {
        if (place.text() == nullptr || points.count(*place.text()) > 0) continue;
        return fail(ErrorCode::kNoAnswer,
                    fmt::format("{}:{}:{}", garden.file, field.where.line, field.where.column),
                    fmt::format("Where the point “{}” lies is not known.", *place.text()),
                    "Give it its place as a [[point]] with at = [x, y], or under fixed in "
                    "[survey].");
      }
    }
  }
  return {};
}

}  // namespace

std::vector<std::string> scheme_names(const Draft& draft) {
  std::vector<std::string> names{"found", "proposed"};
  for (const Entry& entry : draft.entries) {
    if (entry.table == "scheme") names.push_back(entry.id);
  }
  return names;
}

Result<Garden> resolve(const Draft& draft, const std::string& scheme) {
  const std::vector<std::string> names = scheme_names(draft);
  if (std::find(names.begin(), names.end(), scheme) == names.end()) {
    const std::string near = nearest_word(scheme, names);
    return fail(ErrorCode::kWrongUse, "--scheme",
                fmt::format("This garden has no scheme called “{}”.", scheme),
                near.empty() ? fmt::format("It has {}.", list_words(names, "and"))
                             : fmt::format("Did you mean “{}”?", near));
  }
  Garden garden;
  garden.scheme = scheme;
  garden.file = draft.file;
  garden.site.time_zone = draft.time_zone;
  std::vector<Mark> marks;
  std::map<std::string, std::size_t> of_id;
  for (const Entry& entry : draft.entries) {
    if (entry.table == "change" || entry.table == "scheme") continue;
    if (is_thing(entry) && !belongs(entry, scheme)) continue;
    const bool proposed = entry.text("status") == "proposed";
    if (!entry.id.empty() && entry.table != "crop") of_id[entry.id] = garden.entries.size();
    garden.entries.push_back(entry);
    marks.push_back(proposed ? Mark::kProposed : Mark::kExisting);
  }
  std::map<std::string, const Entry*> before;  // changed things as they were
  for (const Entry* change : changes_of(draft, scheme)) {
    const auto thing = of_id.find(change->text("thing"));
    if (thing == of_id.end()) continue;  // it belongs to another scheme
    before[thing->first] = draft.with_id(thing->first);
    apply(*change, garden.entries[thing->second]);
    if (marks[thing->second] == Mark::kExisting) marks[thing->second] = Mark::kChanged;
  }
  if (scheme != "found") drop_removed(garden.entries, marks);
  const PointMap points = points_of(told_points(draft, garden));
  if (const auto placed = check_places(garden, points); !placed) {
    return tl::unexpected<Error>(placed.error());
  }
  build_things(garden, marks, points, before);
  return garden;
}

std::string value_says(const Value& value) {
  constexpr std::size_t kMostShown = 6;
  if (!value.typed.empty()) return value.typed;
  if (const double* number = value.number()) return fmt::format("{:g}", *number);
  if (const std::string* text = value.text()) return *text;
  if (const bool* yes = value.yes_no()) return *yes ? "yes" : "no";
  if (const LocalDate* date = value.date()) return iso_date(*date);
  std::string out;
  if (const List* list = value.list()) {
    for (std::size_t i = 0; i < list->size() && i < kMostShown; ++i)
      out += (i > 0 ? ", " : "") + value_says((*list)[i]);
    return "[" + out + (list->size() > kMostShown ? ", …]" : "]");
  }
  for (const Field& field : *value.record())
    out += (out.empty() ? "" : ", ") + field.key + " " + value_says(field.value);
  return out;
}

namespace {

/// Keys that no grower would read out as they are written.
std::string_view said_otherwise(std::string_view key) {
  constexpr std::pair<std::string_view, std::string_view> kSaid[] = {
      {"ph", "pH"},
      {"level", "level by least digging"},
      {"ph_low", "lowest pH"},
      {"ridge_deg", "ridge runs toward"},
      {"ph_high", "highest pH"},
      {"percolation_mm_h", "water sinks, mm an hour"},
      {"tmax_c", "days’ highest"},
      {"tmin_c", "nights’ lowest"},
      {"rain_mm", "rain, mm"},
      {"sunshine_h_per_day", "sunshine, hours a day"},
      {"radiation_mj_m2_per_day", "sun’s energy, MJ/m² a day"},
      {"wind_m_s", "wind, m/s"},
      {"humidity_share", "humidity"},
      {"light_h_per_day", "sun, hours a day"},
      {"dli_mol_m2_d", "light, mol/m² a day"},
      {"yield_kg_m2", "harvest, kg from a m²"},
      {"yield_kg_m", "harvest, kg from a metre"},
      {"yield_kg_plant", "harvest, kg from a plant"},
      {"mass_kg", "weight, kg"},
      {"m3", "m³"},
  };
  for (const auto& [of, says] : kSaid)
    if (of == key) return says;
  return {};
}

}  // namespace

std::string key_says(std::string_view key) {
  if (const std::string_view said = said_otherwise(key); !said.empty()) return std::string(said);
  for (const std::string_view unit : {"_m", "_deg", "_l", "_c"}) {
    if (key.ends_with(unit)) {
      key.remove_suffix(unit.size());
      break;
    }
  }
  std::string out(key);
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}

Trace figure_trace(const Garden& garden, const Entry& entry, const std::string& key) {
  Trace trace;
  trace.name = entry.id.empty() ? entry.table + "." + key : entry.id + "." + key;
  if (const Field* field = find_field(entry.fields, key)) {
    trace.where = fmt::format("{}:{}:{}", garden.file, field->where.line, field->where.column);
    trace.value = value_says(field->value);
    if (const double* number = field->value.number()) {
      trace.number = *number;
      trace.has_number = true;
    }
    const std::vector<std::string> guessed = entry.guessed();
    const bool is_guess = std::find(guessed.begin(), guessed.end(), key) != guessed.end();
    trace.standing = is_guess ? Standing::kGuessed : Standing::kMeasured;
    return trace;
  }
  const TableSchema* table = find_table(entry.table);
  const KeySchema* schema_key = table == nullptr ? nullptr : find_key(*table, key);
  if (schema_key != nullptr && !schema_key->default_says.empty()) {
    trace.value = schema_key->default_says;
    const char* end = trace.value.data() + trace.value.size();
    const auto [stop, error] = std::from_chars(trace.value.data(), end, trace.number);
    trace.has_number = error == std::errc() && stop == end;
  }
  trace.standing = Standing::kAssumed;
  return trace;
}

}  // namespace spadework::garden
