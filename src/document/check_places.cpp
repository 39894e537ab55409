#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "document/checks.h"
#include "geometry/polygon.h"

namespace spadework::document {
namespace {

using geometry::Vec2;

/// Nearer than this two places are one.
constexpr double kSame_m = 1e-4;

/// As a place is told: to the centimetre.
std::string in_cm(double metres) { return short_number(std::round(metres * 100) / 100); }
std::string shown(Vec2 p) { return fmt::format("[{}, {}]", in_cm(p.x), in_cm(p.y)); }
bool same(Vec2 a, Vec2 b) { return geometry::length(a - b) < kSame_m; }

/// Whether all corners lie on one line, to a millimetre.
bool on_one_line(const std::vector<Vec2>& corners) {
  Vec2 far = corners.front();
  for (const Vec2 p : corners) {
    if (length(p - corners.front()) > length(far - corners.front())) far = p;
  }
  const double across = length(far - corners.front());
  if (across < 1e-3) return true;
  return std::all_of(corners.begin(), corners.end(), [&](Vec2 p) {
    return std::abs(cross(far - corners.front(), p - corners.front())) < 1e-3 * across;
  });
}

class Places {
 public:
  Places(Reading& reading, const garden::Draft& draft, const Names& names) : reading_(reading) {
    read_fixed(draft);
    read_points(draft, names);
  }

  void check(const Entry& entry) {
    const TableSchema* schema = garden::find_table(entry.table);
    const TableSchema* own = schema;
    for (const Field& field : entry.fields) {
      const ValueType type = type_of(*own, field);
      if (type == ValueType::kLine) check_line(field);
      if (type == ValueType::kOutline) check_outline(field);
    }
    if (entry.table == "ground") check_spots(entry);
    check_facing(entry);
  }

 private:
  /// A change's keys are those of its thing: there the name says what it is.
  static ValueType type_of(const TableSchema& table, const Field& field) {
    if (const KeySchema* key = find_key(table, field.key)) return key->type.type;
    if (field.key == "outline") return ValueType::kOutline;
    const bool line = field.key == "line" || field.key == "row";
    return line ? ValueType::kLine : ValueType::kText;
  }

  void read_fixed(const garden::Draft& draft) {
    const Entry* survey = draft.single("survey");
    const Value* fixed = survey == nullptr ? nullptr : survey->find("fixed");
    if (fixed == nullptr || fixed->record() == nullptr) return;
    for (const Field& point : *fixed->record()) {
      if (const auto at = place(point.value)) points_[point.key] = *at;
    }
  }
  /// Points may stand at other points; a ring of them stands nowhere.
  void read_points(const garden::Draft& draft, const Names& names) {
    std::map<std::string, const Field*> waiting;
    for (const Entry& entry : draft.entries) {
      if (entry.table != "point" || names.count(entry.id) == 0) continue;
      const Field* at = garden::find_field(entry.fields, "at");
      if (at == nullptr) continue;
      if (const auto here = place(at->value)) {
        points_.emplace(entry.id, *here);
      } else if (at->value.text() != nullptr) {
        waiting.emplace(entry.id, at);
      }
    }
    for (const auto& [id, at] : waiting) follow(id, at, waiting);
  }
  void follow(const std::string& id, const Field* at,
              const std::map<std::string, const Field*>& waiting) {
    std::vector<std::string> way = {id};
    std::set<std::string> seen = {id};
    std::string next = *at->value.text();
    for (;;) {
      if (const auto known = points_.find(next); known != points_.end()) {
        for (const std::string& each : way) points_.emplace(each, known->second);
        return;
      }
      const auto on = waiting.find(next);
      if (on == waiting.end() || nowhere_.count(next) > 0) {  // told elsewhere, or by tape
        nowhere_.insert(way.begin(), way.end());
        return;
      }
      if (!seen.insert(next).second) break;
      way.push_back(next);
      next = *on->second->value.text();
    }
    nowhere_.insert(way.begin(), way.end());
    reading_.problems.tell(
        at->where, ErrorCode::kImpossibleValue,
        fmt::format("{} stands at a point that stands at it in turn", quoted(id)),
        "give one of them its place: at = [2.0, 19.5]");
  }

  [[nodiscard]] std::optional<Vec2> place(const Value& value) const {
    if (const std::string* id = value.text()) {
      const auto found = points_.find(*id);
      return found == points_.end() ? std::nullopt : std::optional(found->second);
    }
    const List* pair = value.list();
    if (pair == nullptr || pair->size() != 2) return std::nullopt;
    return Vec2{*(*pair)[0].number(), *(*pair)[1].number()};
  }
  /// Nothing if one of them is not known outright.
  [[nodiscard]] std::optional<std::vector<Vec2>> places(const Field& field) const {
    const List* list = field.value.list();
    if (list == nullptr) return std::nullopt;
    std::vector<Vec2> out;
    for (const Value& value : *list) {
      const auto at = place(value);
      if (!at) return std::nullopt;
      out.push_back(*at);
    }
    return out;
  }

  bool check_steps(const Field& field, const std::vector<Vec2>& along) {
    for (std::size_t i = 1; i < along.size(); ++i) {
      if (!same(along[i - 1], along[i])) continue;
      reading_.problems.tell(
          field.where, ErrorCode::kImpossibleValue,
          fmt::format("{} is at {} twice, one after the other", field.key, shown(along[i])),
          "leave one of the two out");
      return false;
    }
    return true;
  }
  void check_line(const Field& field) {
    if (const auto along = places(field)) check_steps(field, *along);
  }
  void check_outline(const Field& field) {
    const auto corners = places(field);
    if (!corners || !check_steps(field, *corners)) return;
    if (same(corners->front(), corners->back())) {
      reading_.problems.tell(
          field.where, ErrorCode::kImpossibleValue,
          fmt::format("{} ends where it began, at {}", field.key, shown(corners->front())),
          "leave the last corner out; an outline closes itself");
      return;
    }
    if (on_one_line(*corners)) {
      reading_.problems.tell(
          field.where, ErrorCode::kImpossibleValue,
          fmt::format("{} holds no ground: its corners lie on one line", field.key),
          "write its corners in order, one way round");
      return;
    }
    if (!geometry::crosses_itself(*corners)) return;
    reading_.problems.tell(field.where, ErrorCode::kCrossedOutline,
                           fmt::format("{} crosses or touches itself", field.key),
                           crossing_hint(*corners));
  }
  /// Two corners that were swapped are the usual reason.
  std::string crossing_hint(const std::vector<Vec2>& corners) {
    const bool worth_it = corners.size() <= 30 && ++hints_ <= 50;
    for (std::size_t i = 0; worth_it && i + 1 < corners.size(); ++i) {
      std::vector<Vec2> swapped = corners;
      std::swap(swapped[i], swapped[i + 1]);
      if (geometry::crosses_itself(swapped)) continue;
      return fmt::format("corners {} and {} may be the wrong way round: {} and {}", i + 1, i + 2,
                         shown(corners[i]), shown(corners[i + 1]));
    }
    return "write its corners in order, one way round";
  }
  void check_spots(const Entry& ground) {
    const Field* spots = garden::find_field(ground.fields, "spots");
    if (spots == nullptr || spots->value.list() == nullptr) return;
    std::set<std::pair<long long, long long>> seen;
    for (const Value& spot : *spots->value.list()) {
      const List& xyz = *spot.list();
      const Vec2 p{*xyz[0].number(), *xyz[1].number()};
      if (seen.insert({std::llround(p.x * 1000), std::llround(p.y * 1000)}).second) continue;
      reading_.problems.tell(spots->where, ErrorCode::kConflict,
                             fmt::format("spots has {} twice", shown(p)),
                             "keep one level for each place");
      return;
    }
  }
  void check_facing(const Entry& entry) {
    const Field* facing = garden::find_field(entry.fields, "facing");
    const Field* at = garden::find_field(entry.fields, "at");
    if (facing == nullptr || at == nullptr) return;
    const auto a = place(at->value), b = place(facing->value);
    if (!a || !b || !same(*a, *b)) return;
    reading_.problems.tell(is_before(at->where, facing->where) ? facing->where : at->where,
                           ErrorCode::kImpossibleValue,
                           fmt::format("facing is the place where it stands, {}", shown(*a)),
                           "write a place that it looks toward");
  }

  Reading& reading_;
  PointPlaces points_;
  std::set<std::string> nowhere_;
  int hints_ = 0;
};

double longest_m(const std::vector<Vec2>& corners) {
  const geometry::Box2 box = geometry::bounds(corners);
  return std::hypot(box.width(), box.height());
}

/// How many slices a bed has; for an outline at most so many. Nothing if it is not known.
std::optional<double> slices_of(const Entry& bed) {
  const Value* slice = bed.find("slice_m");
  const double slice_m = slice != nullptr && slice->number() != nullptr
                             ? *slice->number()
                             : garden::default_number("bed", "slice_m");
  const Value* size = bed.find("size");
  if (size != nullptr && size->list() != nullptr) {
    const double longer = std::max(*(*size->list())[0].number(), *(*size->list())[1].number());
    return std::max(1.0, std::floor(longer / slice_m + 1e-6));
  }
  const Value* outline = bed.find("outline");
  if (outline == nullptr || outline->list() == nullptr) return std::nullopt;
  std::vector<Vec2> corners;
  for (const Value& corner : *outline->list()) {
    if (corner.list() == nullptr) return std::nullopt;
    corners.push_back({*(*corner.list())[0].number(), *(*corner.list())[1].number()});
  }
  return std::ceil(longest_m(corners) / slice_m);
}

void check_stand(Reading& reading, const Entry& stand,
                 const std::unordered_map<std::string, const Entry*>& beds) {
  const Value* bed = stand.find("bed");
  const Field* to = garden::find_field(stand.fields, "to");
  if (bed == nullptr || to == nullptr || beds.count(*bed->text()) == 0) return;
  const auto slices = slices_of(*beds.at(*bed->text()));
  if (!slices || *to->value.number() <= *slices) return;
  reading.problems.tell(
      to->where, ErrorCode::kImpossibleValue,
      fmt::format("to is slice {}, but {} has {}", short_number(*to->value.number()), *bed->text(),
                  short_number(*slices)),
      fmt::format("write from 0 to {}", short_number(*slices)));
}

/// Beds that are level with each other in a ring, so that none has a level.
void check_level_ring(Reading& reading, const Entry& bed,
                      const std::unordered_map<std::string, const Entry*>& beds) {
  const Field* with = garden::find_field(bed.fields, "level_with");
  if (with == nullptr || with->value.text() == nullptr) return;
  std::string at = *with->value.text();
  if (at == bed.id) return;  // told by itself
  for (std::size_t steps = 0; steps <= beds.size(); ++steps) {
    const auto next = beds.find(at);
    if (next == beds.end()) return;
    const Value* on = next->second->find("level_with");
    if (on == nullptr || on->text() == nullptr) return;
    at = *on->text();
    if (at != bed.id) continue;
    reading.problems.tell(
        with->where, ErrorCode::kImpossibleValue,
        fmt::format("{} and {} are level with each other, and neither has a level", bed.id,
                    next->first),
        "give one of them level_m = 0.4, its level in metres");
    return;
  }
}

}  // namespace

void check_places(Reading& reading, const garden::Draft& draft, const Names& names) {
  Places places(reading, draft, names);
  std::unordered_map<std::string, const Entry*> beds;
  for (const Entry& entry : draft.entries) {
    places.check(entry);
    if (entry.table == "bed" && !entry.id.empty()) beds.emplace(entry.id, &entry);
  }
  for (const Entry& entry : draft.entries) {
    if (entry.table == "stand") check_stand(reading, entry, beds);
    if (entry.table == "bed") check_level_ring(reading, entry, beds);
  }
}

void check_document(Reading& reading, const Checked& document) {
  const garden::Draft& draft = document.draft;
  for (std::size_t i = document.first; i < draft.entries.size(); ++i) {
    const Entry& entry = draft.entries[i];
    if (entry.table == "change") continue;
    check_rules(reading.problems,
                Keys{entry.table, label_of(*garden::find_table(entry.table), entry.id), entry.where,
                     entry.fields, document.faulty[i]});
  }
  check_changes(reading, document);
  check_names(reading, draft, document.names);
  check_places(reading, draft, document.names);
}

}  // namespace spadework::document
