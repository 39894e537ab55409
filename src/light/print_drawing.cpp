#include "light/print_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "garden/plan_drawing.h"
#include "geometry/symbols.h"
#include "ground/ground.h"
#include "light/light_drawing.h"

namespace spadework::light {
namespace {

using geometry::Anchor;
using geometry::Drawing;
using geometry::Face;
using geometry::Group;
using geometry::Path;
using geometry::Role;
using geometry::Shape;
using geometry::Stroke;
using geometry::Text;
using geometry::Vec2;

constexpr double kWidth = 297, kHeight = 210, kMargin = 14;
constexpr double kPlotLeft = 26, kPlotRight = 214, kPlotTop = 40, kPlotBottom = 172;
constexpr double kPanelLeft = 226;

Text words(Vec2 at, std::string text, Face face, double size_mm, Anchor anchor = Anchor::kStart) {
  Text out;
  out.at = at;
  out.words = std::move(text);
  out.face = face;
  out.size_mm = size_mm;
  out.anchor = anchor;
  return out;
}

Stroke fine(Role role, double opacity = 1) {
  Stroke stroke;
  stroke.weight_mm = geometry::kFineMm;
  stroke.ink = geometry::Paint(role, opacity);
  return stroke;
}

class Sheet {
 public:
  explicit Sheet(const PrintSheet& sheet) : sheet_(sheet), print_(sheet.print) {}

  Drawing draw() {
    drawing_.width_mm = kWidth;
    drawing_.height_mm = kHeight;
    drawing_.title = fmt::format("Sun print of {}", print_.place);
    drawing_.description = fmt::format("{}, {}: when in the year and the day the sun reaches it.",
                                       sheet_.garden.site.title, sheet_.says);
    crop();
    order_takers();
    header();
    plot();
    axes();
    panel();
    return std::move(drawing_);
  }

 private:
  /// Whole hours around the year's daylight.
  void crop() {
    int low = print_.rows, high = -1;
    for (int c = 0; c < print_.columns; ++c) {
      for (int r = 0; r < print_.rows; ++r) {
        if (!print_.at(c, r).day) continue;
        low = std::min(low, r), high = std::max(high, r);
      }
    }
    if (high < 0) low = 0, high = print_.rows - 1;
    first_h_ = std::max(0.0, std::floor(low * print_.step_h - 0.25));
    last_h_ = std::min(24.0, std::ceil((high + 1) * print_.step_h + 0.25));
  }

  /// Each taker's ink: its rank in the garden; those further down share the dotted graphite.
  void order_takers() {
    for (const std::string& id : print_.takers) {
      const auto at = std::find(sheet_.ranked.begin(), sheet_.ranked.end(), id);
      ink_of_.push_back(static_cast<int>(at - sheet_.ranked.begin()));
    }
  }

  double x_of(double column) const {
    return kPlotLeft + (kPlotRight - kPlotLeft) * column / print_.columns;
  }
  double y_of(double hour) const {
    return kPlotBottom - (kPlotBottom - kPlotTop) * (hour - first_h_) / (last_h_ - first_h_);
  }
  geometry::Affine placement() const {
    return {{x_of(0), y_of(0)}, {x_of(1) - x_of(0), 0}, {0, y_of(print_.step_h) - y_of(0)}};
  }
  template <class In>
  Path cells(In in) const {
    return geometry::outline_of_cells(
        print_.columns, print_.rows,
        [&](int c, int r) {
          const double hour = (r + 0.5) * print_.step_h;
          return hour > first_h_ && hour < last_h_ && in(print_.at(c, r));
        },
        placement());
  }

  void header() {
    drawing_.root.add({words({kMargin, 16}, fmt::format("The sun on {}", print_.place),
                             Face::kSerif, geometry::kTitleTypeMm * 1.25)});
    drawing_.root.add(
        {words({kMargin, 22},
               fmt::format("{}, {}. Days across, hours by the clock up, on clear days.",
                           sheet_.garden.site.title, sheet_.says),
               Face::kSerif, geometry::kTextTypeMm)});
  }

  void plot() {
    Group& plot = drawing_.root.add_group("print", drawing_.title);
    plot.clip = Path::box({kPlotLeft, kPlotTop}, kPlotRight - kPlotLeft, kPlotBottom - kPlotTop);
    plot.add({Shape{*plot.clip, {geometry::Paint(Role::kNight)}, std::nullopt}});
    const Path day = cells([](const PrintCell& cell) { return cell.day; });
    plot.add({Shape{day, {geometry::Paint(Role::kPaper)}, fine(Role::kInk)}});
    const Path lit = cells([](const PrintCell& cell) { return cell.strong && cell.lit > 0.25F; });
    plot.add({Shape{lit, {geometry::Paint(Role::kSunlit)}, fine(Role::kInk)}});
    bites(plot);
  }

  void bites(Group& plot) {
    for (int t = static_cast<int>(print_.takers.size()) - 1; t >= 0; --t) {
      const int ink = ink_of_[static_cast<std::size_t>(t)];
      const Path half = cells([&](const PrintCell& cell) {
        return cell.taker == t && cell.lit > 0.25F && cell.lit <= 0.75F;
      });
      if (!half.empty())
        plot.add({Shape{half, {geometry::half_hatch(geometry::taker_ink(ink))}, std::nullopt}});
      const Path whole =
          cells([&](const PrintCell& cell) { return cell.taker == t && cell.lit <= 0.25F; });
      if (whole.empty()) continue;
      Group& bite = plot.add_group("taken-by-" + print_.takers[static_cast<std::size_t>(t)],
                                   "taken by " + print_.takers[static_cast<std::size_t>(t)]);
      bite.add({Shape{whole,
                      {geometry::seen(geometry::taker_ink(ink), 0.35), geometry::taker_fill(ink)},
                      fine(Role::kInk)}});
    }
    const Path skyline = cells([](const PrintCell& cell) { return cell.taker == kSkylineTaker; });
    if (!skyline.empty()) plot.add({Shape{skyline, {geometry::taker_fill(-1)}, fine(Role::kInk)}});
    for (const int t : by_size()) name_bite(plot, t);
    name_skyline(plot);
  }

  /// The longest run of one taker in the middle of three rows of it; columns from, to; its row.
  struct Run {
    int from = 0, to = 0, row = 0;
  };
  Run longest_run(int taker) const {
    Run best;
    const auto holds = [&](int c, int r) {
      const PrintCell& cell = print_.at(c, r);
      return cell.taker == taker && cell.lit <= 0.25F;
    };
    const int rows_wanted = static_cast<int>(std::ceil(3.6 / (y_of(0) - y_of(print_.step_h))));
    for (int r = rows_wanted; r + rows_wanted < print_.rows; ++r) {
      for (int c = 0; c < print_.columns;) {
        int end = c;
        while (end < print_.columns) {
          bool all = true;
          for (int k = -rows_wanted / 2; k <= rows_wanted / 2; ++k) all = all && holds(end, r + k);
          if (!all) break;
          ++end;
        }
        if (end - c > best.to - best.from) best = {c, end, r};
        c = end + 1;
      }
    }
    return best;
  }

  void label(Group& plot, const Run& run, const std::string& text) {
    Text name = words({(x_of(run.from) + x_of(run.to)) / 2, y_of((run.row + 0.5) * print_.step_h)},
                      text, Face::kSerifItalic, geometry::kTableTypeMm, Anchor::kMiddle);
    name.rise = geometry::Rise::kMiddle;
    name.halo_mm = 0.7;
    plot.add({name});
  }

  /// The takers that show, those that take most first; as many as the key has room for.
  std::vector<int> by_size() const {
    constexpr std::size_t kMostListed = 12;
    constexpr int kSpeck = 6;  // cells: less says nothing
    std::vector<int> cells(print_.takers.size(), 0), order;
    for (const PrintCell& cell : print_.cells) {
      if (cell.taker >= 0 && cell.lit <= 0.75F) ++cells[static_cast<std::size_t>(cell.taker)];
    }
    for (int t = 0; t < static_cast<int>(cells.size()); ++t) {
      if (cells[static_cast<std::size_t>(t)] >= kSpeck) order.push_back(t);
    }
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      return cells[static_cast<std::size_t>(a)] > cells[static_cast<std::size_t>(b)];
    });
    if (order.size() > kMostListed) order.resize(kMostListed);
    return order;
  }

  void name_bite(Group& plot, int taker) {
    const std::string& id = print_.takers[static_cast<std::size_t>(taker)];
    const Run run = longest_run(taker);
    const double space = x_of(run.to) - x_of(run.from);
    const std::string text = says(id);
    if (space > static_cast<double>(text.size()) * geometry::kTableTypeMm * 0.5 + 2) {
      label(plot, run, text);
      listed_[taker] = "";
      return;
    }
    const std::string letter(1, static_cast<char>('A' + std::min(25, next_letter_)));
    int column = 0, row = 0, count = 0;
    for (int c = 0; c < print_.columns; ++c) {
      for (int r = 0; r < print_.rows; ++r) {
        if (print_.at(c, r).taker != taker || print_.at(c, r).lit > 0.75F) continue;
        column += c, row += r, ++count;
      }
    }
    // The cell of the taker nearest to the middle of all of them.
    int best_c = 0, best_r = 0;
    double least = 1e18;
    for (int c = 0; c < print_.columns; ++c) {
      for (int r = 0; r < print_.rows; ++r) {
        if (print_.at(c, r).taker != taker || print_.at(c, r).lit > 0.75F) continue;
        const double dc = c - static_cast<double>(column) / count,
                     dr = r - static_cast<double>(row) / count;
        if (dc * dc + dr * dr < least) least = dc * dc + dr * dr, best_c = c, best_r = r;
      }
    }
    ++next_letter_;
    listed_[taker] = letter;
    append_taker_disc(plot, {x_of(best_c + 0.5), y_of((best_r + 0.5) * print_.step_h)}, letter,
                      ink_of_[static_cast<std::size_t>(taker)]);
  }

  void name_skyline(Group& plot) {
    const Run run = longest_run(kSkylineTaker);
    if (x_of(run.to) - x_of(run.from) > 18) label(plot, run, "skyline");
  }

  std::string says(const std::string& id) const {
    if (id == ground::kGroundId) return "the ground";
    if (id != print_.place) return id;
    for (const auto& seat : sheet_.garden.seats) {
      if (seat.id == id) return "its own roof and sides";
    }
    return "its own boards";
  }

  void axes() {
    Group& axes = drawing_.root.add_group("axes", "months and hours");
    for (double h = std::ceil(first_h_ / 2) * 2; h <= last_h_ + 1e-9; h += 2) {
      Text hour = words({kPlotLeft - 2, y_of(h)}, fmt::format("{:.0f}:00", h), Face::kSans,
                        geometry::kLabelTypeMm, Anchor::kEnd);
      hour.rise = geometry::Rise::kMiddle;
      hour.tabular = true;
      axes.add({hour});
      axes.add({Shape{Path::segment({kPlotLeft, y_of(h)}, {kPlotRight, y_of(h)}),
                      {},
                      fine(Role::kGraphite, 0.35)}});
    }
    int from = 0;
    for (int c = 1; c <= print_.columns; ++c) {
      const auto month_at = [&](int column) {
        return static_cast<unsigned>(date_of_day(kReferenceYear, print_.day_of(column)).month());
      };
      if (c < print_.columns && month_at(c) == month_at(c - 1)) continue;
      month(axes, month_at(c - 1), from, c);
      from = c;
    }
    axes.add(
        {Shape{Path::box({kPlotLeft, kPlotTop}, kPlotRight - kPlotLeft, kPlotBottom - kPlotTop),
               {},
               fine(Role::kInk)}});
    axes.add({words({kPlotLeft - 2, kPlotBottom + 8.6}, "h a day", Face::kSans,
                    geometry::kLabelTypeMm, Anchor::kEnd)});
  }

  void month(Group& axes, unsigned month, int from, int to) {
    const double middle = (x_of(from) + x_of(to)) / 2;
    axes.add({words({middle, kPlotTop - 2.2}, std::string(short_month_name(month)), Face::kSans,
                    geometry::kLabelTypeMm, Anchor::kMiddle)});
    if (from > 0)
      axes.add({Shape{Path::segment({x_of(from), kPlotTop}, {x_of(from), kPlotBottom}),
                      {},
                      fine(Role::kGraphite, 0.35)}});
    Text total =
        words({middle, kPlotBottom + 8.6}, fmt::format("{:.1f}", sheet_.month_sun_h[month - 1]),
              Face::kSans, geometry::kTableTypeMm, Anchor::kMiddle);
    total.weight = geometry::Weight::kSemiBold;
    total.tabular = true;
    axes.add({total});
  }

  void key_row(Group& into, double y, const geometry::Fill& fill, const std::string& text) {
    into.add({Shape{Path::box({kPanelLeft, y - 3}, 6, 4), {fill}, fine(Role::kInk)}});
    into.add({words({kPanelLeft + 8.5, y}, text, Face::kSans, geometry::kLabelTypeMm)});
  }

  void panel() {
    Group& panel = drawing_.root.add_group("key", "key");
    double y = kPlotTop + 3;
    key_row(panel, y, geometry::Paint(Role::kSunlit), "the sun is on it");
    key_row(panel, y += 6, geometry::half_hatch(Role::kGraphite), "on a part of it");
    key_row(panel, y += 6, geometry::Paint(Role::kPaper),
            print_.is_face ? "the sun is low, or behind it" : "the sun is low and weak");
    key_row(panel, y += 6, geometry::Paint(Role::kNight), "night");
    bool skyline = false;
    for (const PrintCell& cell : print_.cells) skyline = skyline || cell.taker == kSkylineTaker;
    if (skyline) key_row(panel, y += 6, geometry::taker_fill(-1), "the skyline takes it");
    y += 9;
    panel.add({words({kPanelLeft, y}, "What takes it", Face::kSerif, geometry::kTextTypeMm)});
    int shown = 0;
    for (int t = 0; t < static_cast<int>(print_.takers.size()); ++t) {
      const auto listed = listed_.find(t);
      if (listed == listed_.end()) continue;
      ++shown;
      y += 5.4;
      const int ink = ink_of_[static_cast<std::size_t>(t)];
      panel.add({Shape{Path::box({kPanelLeft, y - 3}, 6, 4),
                       {geometry::seen(geometry::taker_ink(ink), 0.35), geometry::taker_fill(ink)},
                       fine(Role::kInk)}});
      if (!listed->second.empty())
        append_taker_disc(panel, {kPanelLeft + 10.5, y - 1}, listed->second, ink);
      panel.add({words({kPanelLeft + (listed->second.empty() ? 8.5 : 14), y},
                       says(print_.takers[static_cast<std::size_t>(t)]), Face::kSerifItalic,
                       geometry::kTableTypeMm)});
    }
    if (shown == 0)
      panel.add(
          {words({kPanelLeft, y + 6}, "nothing", Face::kSerifItalic, geometry::kTableTypeMm)});
    locator(y + 8);
    caption();
  }

  /// Where the place lies: outlines only, the place in yellow.
  void locator(double top) {
    const double bottom = kHeight - 34;
    const geometry::Box2 box = sheet_frame(sheet_.garden);
    const Vec2 space{kWidth - kMargin - kPanelLeft, std::max(20.0, bottom - top)};
    const double scale = scale_to_fit({box.width(), box.height()}, space);
    geometry::PlanOnPaper map;
    map.mm_per_m = 1000 / scale;
    map.origin = {kPanelLeft - map.paper(box.low.x),
                  std::max(top, bottom - map.paper(box.height())) + map.paper(box.height()) +
                      map.paper(box.low.y)};
    Group& plan = drawing_.root.add_group("where", "where it lies");
    const auto outline = [&](const geometry::Polygon& ring, std::vector<geometry::Fill> fills,
                             double weight) {
      Stroke stroke = fine(Role::kInk);
      stroke.weight_mm = weight;
      plan.add({Shape{Path::polygon(map.paper(ring)), std::move(fills), stroke}});
    };
    if (sheet_.garden.boundary.size() >= 3) outline(sheet_.garden.boundary, {}, geometry::kFineMm);
    for (const auto& b : sheet_.garden.buildings)
      outline(b.outline, {geometry::Paint(Role::kGraphite, 0.25)}, geometry::kFineMm);
    for (const auto& w : sheet_.garden.walls) {
      Stroke stroke = fine(Role::kInk);
      stroke.weight_mm = geometry::kMediumMm;
      std::vector<Vec2> line;
      for (const Vec2 p : w.line) line.push_back(map.paper(p));
      plan.add({Shape{Path::polyline(line), {}, stroke}});
    }
    for (const auto& t : sheet_.garden.trees)
      plan.add({Shape{Path::circle(map.paper(t.at), map.paper(in_metres(t.crown_width)) / 2),
                      {},
                      fine(Role::kGraphite)}});
    for (const auto& bed : sheet_.garden.beds) {
      const bool here = bed.id == print_.place;
      outline(bed.outline,
              here ? std::vector<geometry::Fill>{geometry::Paint(Role::kSunlit)}
                   : std::vector<geometry::Fill>{},
              here ? geometry::kHeavyMm : geometry::kFineMm);
    }
    mark_small_place(plan, map);
    append_north(drawing_.root, {kWidth - kMargin - 6, kHeight - 21}, 5.5,
                 garden::north_on_paper(sheet_.garden));
    draw_scale_bar(drawing_.root, {kPanelLeft, kHeight - 21}, map.mm_per_m,
                   sheet_.garden.site.imperial, 38);
  }

  void mark_small_place(Group& plan, const geometry::PlanOnPaper& map) {
    std::vector<Vec2> at = print_.marks;
    for (const auto& seat : sheet_.garden.seats) {
      if (seat.id == print_.place) at.push_back(seat.at);
    }
    for (const auto& plant : sheet_.garden.plants) {
      if (plant.id == print_.place) at = plant.stems;
    }
    for (const auto& container : sheet_.garden.containers) {
      if (container.id == print_.place) at.push_back(container.at);
    }
    Stroke stroke = fine(Role::kInk);
    stroke.weight_mm = geometry::kMediumMm;
    for (const Vec2 p : at)
      plan.add({Shape{Path::circle(map.paper(p), 1.3), {geometry::Paint(Role::kSunlit)}, stroke}});
  }

  void caption() {
    Text text =
        words({kMargin, kHeight - 10},
              "Yellow: the sun is on it, clear of every thing, its beam over 120 W/m². Ink: the "
              "first thing on the ray that takes half of it or more. Clear sky.",
              Face::kSerif, geometry::kLabelTypeMm);
    text.ink = geometry::Paint(Role::kGraphite);
    drawing_.root.add({text});
  }

  const PrintSheet& sheet_;
  const SunPrint& print_;
  Drawing drawing_;
  double first_h_ = 0, last_h_ = 24;
  std::vector<int> ink_of_;
  std::map<int, std::string> listed_;  // takers in the key: letter, or empty when named in the bite
  int next_letter_ = 0;
};

}  // namespace

Drawing print_drawing(const PrintSheet& sheet) { return Sheet(sheet).draw(); }

}  // namespace spadework::light
