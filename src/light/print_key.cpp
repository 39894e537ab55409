// The sun print's key: what its colours say, what takes the sun, how many hours a year.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "geometry/symbols.h"
#include "light/print_parts.h"

namespace spadework::light {
namespace {

using geometry::Anchor;
using geometry::Face;
using geometry::Group;
using geometry::Paint;
using geometry::Path;
using geometry::Role;
using geometry::Shape;
using geometry::Text;

constexpr double kRow_mm = 5.1;

class Key {
 public:
  Key(const PrintParts& parts, const PaperBox& box, Group& into)
      : parts_(parts), box_(box), into_(into), y_(box.top + 3) {}

  double draw() {
    colours();
    y_ += 4;
    into_.add({print_words({box_.left, y_}, "What takes it", Face::kSerif, geometry::kTextTypeMm)});
    if (parts_.in_key.empty() && parts_.sheet.takers.lost_h < 0.5) {
      y_ += kRow_mm;
      into_.add(
          {print_words({box_.left, y_}, "nothing", Face::kSerifItalic, geometry::kTableTypeMm)});
      return y_ + kRow_mm;
    }
    hours("gives back, h a year");
    y_ += kRow_mm + 0.4;
    for (const Taker& taker : parts_.in_key) taker_row(taker);
    if (parts_.others_in_key > 0) others_row();
    twice_row();
    total_row();
    return y_;
  }

 private:
  void colours() {
    const auto plain = [&](const Path& box, Role role) {
      into_.add({Shape{box, {Paint(role)}, std::nullopt}});
    };
    row("the sun is on it", [&](const Path& box) { plain(box, Role::kSunlit); });
    row("on a part of it", [&](const Path& box) {
      plain(box, Role::kSunlit);
      into_.add({Shape{box, {geometry::half_hatch(Role::kGraphite)}, std::nullopt}});
    });
    row(parts_.print.is_face ? "the sun is low, or behind it" : "the sun is low and weak",
        [&](const Path& box) { plain(box, Role::kPaper); });
    row("night", [&](const Path& box) { plain(box, Role::kNight); });
  }

  template <class Fill>
  void swatch(Fill fill) {
    const Path box = Path::box({box_.left, y_ - 3}, 6, 4);
    fill(box);
    into_.add({Shape{box, {}, fine_line(Role::kInk)}});
  }
  /// A swatch and its words; down one row.
  template <class Fill>
  void row(const std::string& text, Fill fill) {
    swatch(fill);
    label(text);
    y_ += kRow_mm;
  }
  void label(const std::string& text) {
    into_.add({print_words({box_.left + 8.5, y_}, text, Face::kSans, geometry::kLabelTypeMm)});
  }
  void name(const std::string& text) {
    into_.add({print_words({box_.left + 13.8, y_}, shortened(text), Face::kSerifItalic,
                           geometry::kTableTypeMm)});
  }
  void hours(const std::string& text) {
    Text figure =
        print_words({box_.right, y_}, text, Face::kSans, geometry::kLabelTypeMm, Anchor::kEnd);
    figure.tabular = true;
    into_.add({figure});
  }

  void taker_row(const Taker& taker) {
    const int ink = parts_.inks.ink(taker.id);
    swatch([&](const Path& box) { add_ink(into_, box, ink); });
    const std::string letter = parts_.inks.letter(taker.id);
    if (!letter.empty()) append_taker_disc(into_, {box_.left + 10.5, y_ - 1}, letter, ink);
    name(parts_.name_of(taker.id));
    hours(taker.sun_h_per_year >= 0.5 ? fmt::format("{:.0f}", taker.sun_h_per_year) : "–");
    y_ += kRow_mm;
  }

  void others_row() {
    const int graphite = static_cast<int>(geometry::kTakerInks.size());
    swatch([&](const Path& box) { add_ink(into_, box, graphite); });
    name(parts_.others_in_key == 1 ? "one other" : fmt::format("{} others", parts_.others_in_key));
    hours(parts_.others_h >= 0.5 ? fmt::format("{:.0f}", parts_.others_h) : "–");
    y_ += kRow_mm;
  }

  /// Its stripes are those of the pair that the picture shows most.
  void twice_row() {
    if (parts_.sheet.takers.taken_twice_h < 0.5) return;
    std::map<std::pair<int, int>, int> pairs;
    for (const PrintCell& cell : parts_.print.cells) {
      if (cell.striped()) ++pairs[{cell.taker, cell.second}];
    }
    const auto most = std::max_element(pairs.begin(), pairs.end(),
                                       [](auto& a, auto& b) { return a.second < b.second; });
    const auto ink = [&](int taker) { return parts_.inks.ink(parts_.id_of(taker)); };
    swatch([&](const Path& box) {
      if (most != pairs.end())
        add_stripes(into_, box, ink(most->first.first), ink(most->first.second));
    });
    label("taken twice, by two at once");
    hours(fmt::format("{:.0f}", parts_.sheet.takers.taken_twice_h));
    y_ += kRow_mm;
  }

  void total_row() {
    y_ += 1.5;  // no sum line: what each would give back may come to more
    label("taken in all");
    hours(fmt::format("{:.0f}", parts_.sheet.takers.lost_h));
    y_ += kRow_mm;
  }

  /// A long id ends in an ellipsis before it meets the hours.
  static std::string shortened(const std::string& name) {
    constexpr int kMost = 24;
    if (shown_width(name) <= kMost) return name;
    std::string out = name;
    const auto inside_a_letter = [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
    };
    while (shown_width(out) >= kMost) {
      while (inside_a_letter(out.back())) out.pop_back();
      out.pop_back();
    }
    return out + "…";
  }

  const PrintParts& parts_;
  PaperBox box_;
  Group& into_;
  double y_;  // how far down the key has come
};

/// By taker, the cells of the picture that show it.
std::map<std::string, int> shown_in(const PrintParts& parts) {
  std::map<std::string, int> shown;
  for (const RegionKind& kind : parts.regions.kinds) {
    for (const int taker : {kind.taker, kind.second})
      if (taker != kNoTaker) shown[parts.id_of(taker)] += kind.cells;
  }
  return shown;
}

/// Those of the table, and those that the picture shows.
std::vector<Taker> takers_to_list(const PrintParts& parts,
                                  const std::map<std::string, int>& shown) {
  constexpr double kLeast_h = 0.5;
  constexpr int kVisible = 30;  // cells
  std::vector<Taker> all;
  for (const Taker& taker : parts.sheet.takers.takers) {
    const auto cells = shown.find(taker.id);
    if (taker.sun_h_per_year >= kLeast_h || (cells != shown.end() && cells->second >= kVisible))
      all.push_back(taker);
  }
  for (const auto& [id, cells] : shown) {
    const auto is_it = [&own = id](const Taker& taker) { return taker.id == own; };
    const bool there = std::any_of(all.begin(), all.end(), is_it);
    if (!there && cells >= kVisible) all.push_back({id});
  }
  return all;
}

}  // namespace

PrintParts parts_of(const PrintSheet& sheet) {
  constexpr std::size_t kMost = 14;
  constexpr double kHoursOfYear = 8766;
  PrintParts parts{sheet, sheet.print, TakerInks(sheet.ranked), regions_of(sheet.print)};
  std::vector<std::string> here;
  for (const PrintTaker& taker : sheet.print.takers) here.push_back(taker.id);
  parts.inks.add(here);
  const std::map<std::string, int> shown = shown_in(parts);
  parts.in_key = takers_to_list(parts, shown);
  // Those that show or take most stay, before them those whose own inks show; of what is left only
  // the number is told.
  const auto weight = [&](const Taker& taker) {
    const auto cells = shown.find(taker.id);
    const double seen_h = cells == shown.end() ? 0 : cells->second * sheet.print.step_h;
    const double own = seen_h > 0 && parts.inks.has_own_ink(taker.id) ? kHoursOfYear : 0;
    return own + std::max(taker.sun_h_per_year, seen_h * sheet.print.day_step);
  };
  std::stable_sort(parts.in_key.begin(), parts.in_key.end(),
                   [&](const Taker& a, const Taker& b) { return weight(a) > weight(b); });
  if (parts.in_key.size() > kMost) {
    for (std::size_t i = kMost - 1; i < parts.in_key.size(); ++i) {
      ++parts.others_in_key;
      parts.others_h += parts.in_key[i].sun_h_per_year;
    }
    parts.in_key.resize(kMost - 1);
  }
  std::stable_sort(parts.in_key.begin(), parts.in_key.end(), [](const Taker& a, const Taker& b) {
    return a.sun_h_per_year > b.sun_h_per_year;
  });
  return parts;
}

bool PrintParts::is_in_key(const std::string& id) const {
  return std::any_of(in_key.begin(), in_key.end(), [&](const Taker& t) { return t.id == id; });
}

double draw_print_key(const PrintParts& parts, const PaperBox& box, Group& into) {
  return Key(parts, box, into).draw();
}

}  // namespace spadework::light
