#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "document/checks.h"

namespace spadework::document {
namespace {

/// One entry's keys, looked at together.
class Rules {
 public:
  Rules(Problems& problems, const Keys& keys)
      : problems_(problems),
        table_(keys.table),
        label_(keys.label),
        fields_(keys.fields),
        faulty_(keys.faulty),
        where_(keys.where) {}

  void check() {
    common();
    if (table_ == "climate") file_beside("weather_file");
    if (table_ == "climate.month") rising("tmin_c", "tmax_c", false);
    if (table_ == "picture") file_beside("file");
    if (table_ == "boundary") boundary();
    if (table_ == "ground") ground();
    if (table_ == "building") building();
    if (table_ == "tree") rising("crown_base_m", "height_m", true);
    if (table_ == "bed") bed();
    if (table_ == "support") support();
    if (table_ == "plant") plant();
    if (table_ == "cover") one_of({"over", "outline"});
    if (table_ == "view" || table_ == "hide" || table_ == "watch") one_of({"to", "thing"});
    if (table_ == "stand") stand();
    if (table_ == "labour") labour();
    if (table_ == "prices") prices();
    if (table_ == "crop") rising("ph_low", "ph_high", false);
    if (table_ == "task") task();
    if (table_ == "scheme") scheme();
  }

 private:
  [[nodiscard]] const Field* find(std::string_view key) const {
    return garden::find_field(fields_, key);
  }
  [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
  /// Whether the key stands there, right or wrong.
  [[nodiscard]] bool given(std::string_view key) const {
    return has(key) || std::find(faulty_.begin(), faulty_.end(), key) != faulty_.end();
  }
  [[nodiscard]] const double* number(std::string_view key) const {
    const Field* field = find(key);
    return field == nullptr ? nullptr : field->value.number();
  }
  [[nodiscard]] std::string text(std::string_view key) const {
    const Field* field = find(key);
    const std::string* text = field == nullptr ? nullptr : field->value.text();
    return text == nullptr ? std::string() : *text;
  }
  [[nodiscard]] bool yes(std::string_view key) const {
    const Field* field = find(key);
    return field != nullptr && field->value.yes_no() != nullptr && *field->value.yes_no();
  }
  [[nodiscard]] TextPlace later(std::string_view a, std::string_view b) const {
    const TextPlace x = find(a)->where, y = find(b)->where;
    return is_before(x, y) ? y : x;
  }
  [[nodiscard]] std::string shown(std::string_view key) const {
    const Field* field = find(key);
    return field->value.typed.empty() && field->value.number() != nullptr
               ? short_number(*field->value.number())
               : field->value.typed;
  }

  void conflict(std::string_view a, std::string_view b, std::string hint) {
    if (!has(a) || !has(b)) return;
    problems_.tell(later(a, b), ErrorCode::kConflict,
                   fmt::format("{} has both {} and {}", label_, a, b), std::move(hint));
  }
  void missing(std::string_view key, std::string_view because, std::string hint) {
    problems_.tell(where_, ErrorCode::kMissingKey,
                   fmt::format("{} has no {}{}", label_, key, because), std::move(hint));
  }
  /// Exactly one of the keys.
  void one_of(const std::vector<std::string>& keys) {
    const Field* first = nullptr;
    bool any = false;
    for (const std::string& key : keys) {
      any = any || given(key);
      const Field* field = find(key);
      if (field == nullptr) continue;
      if (first != nullptr) {
        conflict(first->key, key, fmt::format("leave one of {} and {} out", first->key, key));
      } else {
        first = field;
      }
    }
    if (!any) {
      std::string all;
      for (const std::string& key : keys) all += (all.empty() ? "" : " or ") + key;
      missing(all, "", "add " + all);
    }
  }
  /// `low` may not be above `high` (nor at it, if `strictly`).
  void rising(std::string_view low, std::string_view high, bool strictly) {
    const double* a = number(low);
    const double* b = number(high);
    if (a == nullptr || b == nullptr || *a < *b || (*a == *b && !strictly)) return;
    problems_.tell(later(low, high), ErrorCode::kImpossibleValue,
                   fmt::format("{}: {} {} cannot be {} {} {}", label_, low, shown(low),
                               strictly ? "as high as" : "above", high, shown(high)),
                   fmt::format("look which of {} and {} is right", low, high));
  }

  void common() {
    if (text("status") == "proposed" && yes("removed")) {
      problems_.tell(later("status", "removed"), ErrorCode::kConflict,
                     fmt::format("{} is proposed and removed at once", label_),
                     "only what is there already can be removed");
    }
    const Field* guessed = find("guessed");
    const TableSchema* schema = garden::find_table(table_);
    if (guessed == nullptr || guessed->value.list() == nullptr || schema == nullptr) return;
    std::vector<std::string> names;
    for (const KeySchema& key : schema->keys) names.push_back(key.name);
    for (const Value& value : *guessed->value.list()) {
      const std::string& name = *value.text();
      if (std::find(names.begin(), names.end(), name) != names.end()) continue;
      problems_.tell(guessed->where, ErrorCode::kUnknownKey,
                     fmt::format("guessed names {}, which is no key of {}", quoted(name), label_),
                     problems_.hint_for(name, names, "its keys are " + some_words(names, 40)));
    }
  }
  void file_beside(const char* key) {
    if (!has(key)) return;
    const std::string file = text(key);
    if (file.empty())
      return problems_.tell(
          find(key)->where, ErrorCode::kImpossibleValue, fmt::format("{} names no file", key),
          "write the name of the file beside the document, or leave the line out");
    if (file.find_first_of("/\\:") == std::string::npos && file[0] != '.') return;
    problems_.tell(find(key)->where, ErrorCode::kImpossibleValue,
                   fmt::format("{} {} is not a file beside the document", key, quoted(file)),
                   "put the file into the document's folder and write its name alone");
  }
  void boundary() {
    conflict("outline", "sides_m", "keep the outline, or the sides with their diagonal");
    if (given("outline")) return;
    if (!given("sides_m")) return missing("outline or sides_m", "", "add outline = [[0, 0], …]");
    if (!given("diagonal_m")) {
      return missing("diagonal_m", ", which sides_m needs",
                     "measure from the first corner to the third: diagonal_m = 27.4");
    }
    if (!has("sides_m") || !has("diagonal_m")) return;
    const List& sides = *find("sides_m")->value.list();
    const double diagonal = *number("diagonal_m");
    for (const std::size_t i : {std::size_t{0}, std::size_t{2}}) {
      const double a = *sides[i].number(), b = *sides[i + 1].number();
      if (diagonal < a + b && diagonal > std::abs(a - b)) continue;
      problems_.tell(later("sides_m", "diagonal_m"), ErrorCode::kImpossibleValue,
                     fmt::format("sides {} and {} cannot meet at the ends of a diagonal of {} m",
                                 short_number(a), short_number(b), short_number(diagonal)),
                     fmt::format("the diagonal is longer than {} m and shorter than {} m",
                                 short_number(std::abs(a - b)), short_number(a + b)));
      return;
    }
  }
  void ground() {
    conflict("spots", "falls_m", "keep the measured spots, or the fall");
    for (const std::string_view key : {"falls_m", "toward_deg", "over"}) {
      const bool any = given("falls_m") || given("toward_deg") || given("over");
      if (!any || given(key)) continue;
      missing(key, ": falls_m, toward_deg and over go together",
              "add falls_m = 1.2, toward_deg = 180, over = 20");
    }
    const Field* horizon = find("horizon");
    if (horizon == nullptr) return;
    std::set<double> seen;
    for (const Value& point : *horizon->value.list()) {
      const double bearing = *(*point.list())[0].number();
      const double turned = bearing - 360 * std::floor(bearing / 360);
      if (seen.insert(turned).second) continue;
      problems_.tell(horizon->where, ErrorCode::kConflict,
                     fmt::format("horizon has the bearing {} twice", short_number(turned)),
                     "keep one height for each bearing");
      return;
    }
  }
  void building() {
    rising("eaves_m", "ridge_m", false);
    conflict("ridge_deg", "high_side", "a mono roof has a high_side, the others a ridge_deg");
    const std::string roof = text("roof");
    const bool pitched = roof == "mono" || roof == "gable" || roof == "hip";
    if (pitched && !given("ridge_m")) {
      missing("ridge_m", fmt::format(", which a {} roof needs", roof), "add ridge_m = 3.6");
    }
    const auto only_for = [&](std::string_view key, bool fits, std::string_view roofs) {
      if (!has(key) || !has("roof") || fits) return;
      problems_.tell(later(key, "roof"), ErrorCode::kConflict,
                     fmt::format("{} has {}, but its roof is {}", label_, key, roof),
                     fmt::format("{} is for {}", key, roofs));
    };
    const double* eaves = number("eaves_m");
    const double* ridge = number("ridge_m");
    const bool level = eaves != nullptr && ridge != nullptr && *eaves == *ridge;
    only_for("ridge_m", pitched || level, "roofs that are not flat");
    only_for("ridge_deg", roof == "gable" || roof == "hip", "gable and hip roofs");
    only_for("high_side", roof == "mono", "mono roofs");
  }
  void bed() {
    conflict("outline", "at", "give the outline, or at and size");
    conflict("outline", "size", "give the outline, or at and size");
    conflict("outline", "turn_deg", "an outline is turned already");
    if (!given("outline")) {
      if (!given("at") && !given("size")) {
        missing("at and size, and no outline", "", "add at = [6.4, 14.0] and size = [1.2, 3.6]");
      } else if (!given("at")) {
        missing("at, which size needs", "", "add at = [6.4, 14.0], its corner");
      } else if (!given("size")) {
        missing("size, which at needs", "", "add size = [1.2, 3.6]");
      }
    }
    conflict("level", "level_m", "keep level = \"auto\", or the level in metres");
    conflict("level_m", "level_with", "keep the level in metres, or the bed that it is level with");
    if (has("level_with") && text("level_with") == text("id")) {
      problems_.tell(find("level_with")->where, ErrorCode::kImpossibleValue,
                     fmt::format("{} is level_with itself", label_), "name another bed");
    }
    const Field* mix = find("mix");
    if (mix == nullptr || mix->value.list() == nullptr) return;
    double sum = 0;
    for (const Value& part : *mix->value.list()) {
      const Field* share = garden::find_field(*part.record(), "share");
      if (share == nullptr) return;
      sum += *share->value.number();
    }
    if (std::abs(sum - 1) <= 0.02) return;
    problems_.tell(mix->where, ErrorCode::kImpossibleValue,
                   fmt::format("the shares of mix make {}, not 1", short_number(sum)),
                   "change them so that they make 1 together");
  }
  void support() {
    one_of({"at", "line"});
    if (has("line")) conflict("line", "turn_deg", "a line lies as it is drawn: leave turn_deg out");
  }
  void plant() {
    one_of({"at", "row", "outline"});
    if (has("row") && !given("count")) {
      missing("count, which row needs", "", "add count = 5, how many stand in the row");
    }
    if (has("at") && !has("row"))
      conflict("at", "count", "give a row for several: row = [[…], […]]");
  }
  void stand() {
    const double* from = number("from");
    const double* to = number("to");
    if (from != nullptr && to != nullptr && *from >= *to) {
      problems_.tell(later("from", "to"), ErrorCode::kImpossibleValue,
                     fmt::format("{} ends at slice {}, not after {} where it begins", label_,
                                 short_number(*to), short_number(*from)),
                     "from 0, to 4 are the first four slices");
    }
    ordered("start", "end");
  }
  void labour() {
    ordered("start", "finish_by");
    const Field* days = find("days");
    if (days == nullptr) return;
    std::set<std::string> seen;
    for (const Value& day : *days->value.list()) {
      if (seen.insert(*day.text()).second) continue;
      problems_.tell(days->where, ErrorCode::kConflict,
                     fmt::format("days names {} twice", *day.text()), "leave one of them out");
      return;
    }
  }
  void ordered(std::string_view first, std::string_view last) {
    if (!has(first) || !has(last)) return;
    const LocalDate a = *find(first)->value.date(), b = *find(last)->value.date();
    if (a <= b) return;
    problems_.tell(
        later(first, last), ErrorCode::kImpossibleValue,
        fmt::format("{}: {} {} comes before {} {}", label_, last, iso_date(b), first, iso_date(a)),
        fmt::format("look which of {} and {} is right", first, last));
  }
  void prices() {
    for (const Field& field : fields_) {
      const Record* price = field.value.record();
      if (price == nullptr) continue;
      const Field* tonnes = garden::find_field(*price, "tonnes");
      const Field* m3 = garden::find_field(*price, "m3");
      if (tonnes == nullptr || m3 == nullptr) continue;
      problems_.tell(is_before(tonnes->where, m3->where) ? m3->where : tonnes->where,
                     ErrorCode::kConflict,
                     fmt::format("{} has both tonnes and m3", quoted(field.key)),
                     "keep the one by which it is sold");
    }
  }
  void task() {
    const Field* after = find("after");
    if (after == nullptr) return;
    for (const Value& id : *after->value.list()) {
      if (*id.text() != text("id")) continue;
      problems_.tell(after->where, ErrorCode::kImpossibleValue,
                     fmt::format("{} comes after itself", label_), "name another task");
      return;
    }
  }
  void scheme() {
    const std::string id = text("id");
    if (id != "found" && id != "proposed") return;
    problems_.tell(find("id")->where, ErrorCode::kRepeatedId,
                   fmt::format("every garden has a scheme \"{}\" already", id),
                   "give this one another id");
  }

  Problems& problems_;
  const std::string& table_;
  const std::string& label_;
  const Record& fields_;
  const std::vector<std::string>& faulty_;
  TextPlace where_;
};

}  // namespace

void check_rules(Problems& problems, const Keys& keys) { Rules(problems, keys).check(); }

}  // namespace spadework::document
