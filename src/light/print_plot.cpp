// The picture of the sun print: regions of one ink, their stripes and their names.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "base/text.h"
#include "geometry/symbols.h"
#include "light/light_drawing.h"
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
using geometry::Vec2;
using What = RegionKind::What;

constexpr double kDisc_mm = 4.4, kNameHigh_mm = 3.8;
constexpr double kStripe_mm = 1.7;

/// A taker's ink thinned with paper, and nothing shows through.
Paint tint_of(int ink) {
  return geometry::mixed(colour_of(Role::kPaper), colour_of(geometry::taker_ink(ink)),
                         ink < 0 ? 0.25 : 0.35);
}

/// Every other of the stripes that cover a box, the first ones or those between them.
Path stripes(const geometry::Box2& box, bool between) {
  const Vec2 along = geometry::paper_direction(-std::numbers::pi / 3);
  const Vec2 across{-along.y, along.x};
  const Vec2 corners[] = {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
  double low = 1e300, high = -1e300, near = 1e300, far = -1e300;
  for (const Vec2 p : corners) {
    low = std::min(low, dot(p, across)), high = std::max(high, dot(p, across));
    near = std::min(near, dot(p, along)), far = std::max(far, dot(p, along));
  }
  Path path;
  const auto first = static_cast<long>(std::floor(low / kStripe_mm));
  for (long k = first; static_cast<double>(k) * kStripe_mm < high; ++k) {
    if ((k % 2 != 0) != between) continue;
    const Vec2 side = across * (static_cast<double>(k) * kStripe_mm);
    const Vec2 other = across * (static_cast<double>(k + 1) * kStripe_mm);
    path.add(Path::polygon(
        {side + along * near, side + along * far, other + along * far, other + along * near}));
  }
  return path;
}

geometry::Box2 box_of(const Path& path) {
  geometry::Box2 box{{1e300, 1e300}, {-1e300, -1e300}};
  for (const geometry::FlatLine& line : geometry::flattened(path)) {
    for (const Vec2 p : line.points) {
      box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y)};
      box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y)};
    }
  }
  return box;
}

class Plot {
 public:
  Plot(const PrintParts& parts, const PaperBox& box, Group& into)
      : parts_(parts), print_(parts.print), box_(box), into_(into), regions_(parts.regions) {}

  void draw() {
    crop();
    Group& plot = into_.add_group(
        "print", fmt::format("{}: days across, hours up", parts_.sheet.print.place));
    plot.clip = Path::box({box_.left, box_.top}, box_.right - box_.left, box_.bottom - box_.top);
    plot.add({Shape{*plot.clip, {Paint(Role::kNight)}, std::nullopt}});
    plot.add({Shape{daylight(), {Paint(Role::kPaper)}, fine_line(Role::kInk)}});
    paint(plot);
    hour_lines(plot);
    names(plot);
    axes();
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

  double x_of(double column) const {
    return box_.left + (box_.right - box_.left) * column / print_.columns;
  }
  double y_of(double hour) const {
    return box_.bottom - (box_.bottom - box_.top) * (hour - first_h_) / (last_h_ - first_h_);
  }
  Vec2 cell_mm() const { return {x_of(1) - x_of(0), y_of(0) - y_of(print_.step_h)}; }
  Vec2 on_paper(Vec2 cell) const { return {x_of(cell.x), y_of(cell.y * print_.step_h)}; }

  template <class In>
  Path cells(In in) const {
    const geometry::Affine placement{
        {x_of(0), y_of(0)}, {x_of(1) - x_of(0), 0}, {0, y_of(print_.step_h) - y_of(0)}};
    const Path stairs = geometry::outline_of_cells(
        print_.columns, print_.rows, [&](int c, int r) { return in(c * print_.rows + r); },
        placement);
    return without_steps(stairs, cell_mm());
  }
  Path cells_of(int kind) const {
    return cells(
        [&](int cell) { return regions_.kind_of[static_cast<std::size_t>(cell)] == kind; });
  }
  bool is_whole(int cell) const {
    const int kind = regions_.kind_of[static_cast<std::size_t>(cell)];
    return kind != kNoRegion && regions_.kinds[static_cast<std::size_t>(kind)].what == What::kWhole;
  }

  /// Between sunrise and sunset; where there is neither, cell by cell.
  Path daylight() const {
    const auto known = [](double hour) { return !std::isnan(hour); };
    if (!std::all_of(print_.rise_h.begin(), print_.rise_h.end(), known) ||
        !std::all_of(print_.set_h.begin(), print_.set_h.end(), known))
      return cells([&](int cell) { return print_.cells[static_cast<std::size_t>(cell)].day; });
    std::vector<Vec2> ring = line_of(print_.rise_h);
    const std::vector<Vec2> back = line_of(print_.set_h);
    ring.insert(ring.end(), back.rbegin(), back.rend());
    return Path::polygon(ring);
  }
  /// Through the middles of the columns, and upright where the clocks change.
  std::vector<Vec2> line_of(const std::vector<double>& hours) const {
    constexpr double kClockChange_h = 0.4;
    std::vector<Vec2> line{{x_of(0), y_of(hours.front())}};
    for (int c = 0; c < print_.columns; ++c) {
      const double now = hours[static_cast<std::size_t>(c)];
      if (c > 0 && std::abs(now - hours[static_cast<std::size_t>(c) - 1]) > kClockChange_h) {
        line.push_back({x_of(c), line.back().y});
        line.push_back({x_of(c), y_of(now)});
      }
      line.push_back({x_of(c + 0.5), y_of(now)});
    }
    line.push_back({x_of(print_.columns), line.back().y});
    return line;
  }

  void paint(Group& plot) {
    const Path strong =
        cells([&](int cell) { return regions_.kind_of[static_cast<std::size_t>(cell)] >= 0; });
    plot.add({Shape{strong, {Paint(Role::kSunlit)}, fine_line(Role::kInk)}});
    // Where three regions meet their smoothed outlines leave slivers: grey lies under them.
    const Path taken = cells([&](int cell) { return is_whole(cell); });
    plot.add({Shape{taken, {tint_of(-1)}, fine_line(Role::kInk)}});
    for (int k = 0; k < static_cast<int>(regions_.kinds.size()); ++k) {
      const RegionKind& kind = regions_.kinds[static_cast<std::size_t>(k)];
      if (kind.what == What::kLit) continue;
      const Path path = cells_of(k);
      if (kind.what == What::kHalf) {
        half(plot, kind, path);
        continue;
      }
      Group& bite = plot.add_group(group_id(kind), group_title(kind));
      if (kind.striped())
        add_stripes(bite, path, ink(kind.taker), ink(kind.second));
      else
        add_ink(bite, path, ink(kind.taker));
      bite.add({Shape{path, {}, fine_line(Role::kInk, kind.striped() ? 0.6 : 1)}});
    }
  }

  int ink(int taker) const { return parts_.inks.ink(parts_.id_of(taker)); }
  std::string group_id(const RegionKind& kind) const {
    if (!kind.striped()) return "taken-by-" + parts_.id_of(kind.taker);
    return fmt::format("taken-by-{}-and-{}", parts_.id_of(kind.taker), parts_.id_of(kind.second));
  }
  std::string group_title(const RegionKind& kind) const {
    if (!kind.striped()) return "taken by " + parts_.name_of(parts_.id_of(kind.taker));
    return fmt::format("taken by {} and {} at once", parts_.name_of(parts_.id_of(kind.taker)),
                       parts_.name_of(parts_.id_of(kind.second)));
  }

  /// Half-hatched; of an hour taken twice every other line is the second's.
  void half(Group& plot, const RegionKind& kind, const Path& path) {
    geometry::LineHatch first = geometry::half_hatch(geometry::taker_ink(ink(kind.taker)));
    if (!kind.striped()) {
      plot.add({Shape{path, {first}, std::nullopt}});
      return;
    }
    geometry::LineHatch second = first;
    second.ink = geometry::taker_ink(ink(kind.second));
    const Vec2 along = geometry::paper_direction(first.angle_rad);
    second.anchor = first.anchor + Vec2{-along.y, along.x} * first.spacing_mm;
    first.spacing_mm *= 2, second.spacing_mm *= 2;
    plot.add({Shape{path, {first, second}, std::nullopt}});
  }

  // ---- names ----

  void names(Group& plot) {
    std::vector<Piece> pieces = pieces_of(print_, regions_.kind_of);
    std::stable_sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) {
      return a.cells.size() > b.cells.size();
    });
    Group& group = plot.add_group("names", "what takes the sun");
    for (const What what : {What::kWhole, What::kHalf}) {
      for (const Piece& piece : pieces) {
        const RegionKind& kind = regions_.kinds[static_cast<std::size_t>(piece.kind)];
        if (kind.what != what || kind.taker == kNoTaker) continue;
        if (what == What::kWhole)
          name_piece(group, piece, kind);
        else
          letter_half(group, piece, kind);
      }
    }
  }

  /// A half-hatched piece is lettered where its ink alone does not say whose it is.
  void letter_half(Group& group, const Piece& piece, const RegionKind& kind) {
    if (!has_disc(kind.taker)) return;
    const bool own = parts_.inks.has_own_ink(parts_.id_of(kind.taker));
    if (own && named_.count(kind.taker) > 0) return;
    if (room_for(piece, {2 * kDisc_mm, kDisc_mm})) letter_piece(group, piece, kind);
  }

  std::optional<Vec2> room_for(const Piece& piece, Vec2 size_mm) const {
    return room_within(print_, piece, static_cast<int>(std::ceil(size_mm.x / cell_mm().x)),
                       static_cast<int>(std::ceil(size_mm.y / cell_mm().y)));
  }

  /// By name where there is room for it, else by letter: of stripes both.
  void name_piece(Group& group, const Piece& piece, const RegionKind& kind) {
    std::string name = short_name(kind.taker);
    if (kind.striped()) name += " + " + short_name(kind.second);
    const double wide = shown_width(name) * geometry::kTableTypeMm * 0.48 + 1.5;
    if (const auto at = room_for(piece, {wide, kNameHigh_mm})) {
      Text text = print_words(on_paper(*at), name, Face::kSerifItalic, geometry::kTableTypeMm,
                              Anchor::kMiddle);
      text.rise = geometry::Rise::kMiddle;
      text.halo_mm = 0.7;
      group.add({text});
      named_.insert({kind.taker, kind.second});
      return;
    }
    letter_piece(group, piece, kind);
  }

  void letter_piece(Group& group, const Piece& piece, const RegionKind& kind) {
    if (!has_disc(kind.taker)) return;
    const bool both = kind.striped() && has_disc(kind.second);
    if (const auto at = room_for(piece, {both ? kDisc_mm * 1.9 : kDisc_mm, kDisc_mm})) {
      const Vec2 middle = on_paper(*at), aside{both ? kDisc_mm * 0.46 : 0, 0};
      disc(group, middle - aside, kind.taker);
      if (both) disc(group, middle + aside, kind.second);
      return;
    }
    // A taker that is named nowhere else is lettered even where its disc laps over.
    constexpr std::size_t kWorthADisc = 30;  // cells
    if (!kind.striped() && named_.count(kind.taker) == 0 && piece.cells.size() >= kWorthADisc)
      disc(group, on_paper(heart_of(print_, piece)), kind.taker);
  }

  std::string short_name(int taker) const {
    return taker == kSkylineTaker ? "skyline" : parts_.name_of(parts_.id_of(taker));
  }
  bool has_disc(int taker) const { return taker >= 0 && parts_.is_in_key(parts_.id_of(taker)); }
  void disc(Group& group, Vec2 at, int taker) {
    named_.insert(taker);
    append_taker_disc(group, at, parts_.inks.letter(parts_.id_of(taker)), ink(taker));
  }

  // ---- around the picture ----

  void hour_lines(Group& plot) {
    for (double h = std::ceil(first_h_ / 2) * 2; h <= last_h_ + 1e-9; h += 2)
      plot.add({Shape{Path::segment({box_.left, y_of(h)}, {box_.right, y_of(h)}),
                      {},
                      fine_line(Role::kGraphite, 0.35)}});
    for (const auto& [month, from, to] : months()) {
      if (from > 0)
        plot.add({Shape{Path::segment({x_of(from), box_.top}, {x_of(from), box_.bottom}),
                        {},
                        fine_line(Role::kGraphite, 0.35)}});
    }
  }

  struct Month {
    unsigned month = 1;  // from 1
    int from = 0, to = 0;
  };
  std::vector<Month> months() const {
    std::vector<Month> months;
    for (int c = 0; c < print_.columns; ++c) {
      const auto month =
          static_cast<unsigned>(date_of_day(kReferenceYear, print_.day_of(c)).month());
      if (months.empty() || months.back().month != month) months.push_back({month, c, c});
      months.back().to = c + 1;
    }
    return months;
  }

  void axes() {
    Group& axes = into_.add_group("axes", "months and hours");
    for (double h = std::ceil(first_h_ / 2) * 2; h <= last_h_ + 1e-9; h += 2) {
      Text hour = print_words({box_.left - 2, y_of(h)}, fmt::format("{:.0f}:00", h), Face::kSans,
                              geometry::kLabelTypeMm, Anchor::kEnd);
      hour.rise = geometry::Rise::kMiddle;
      hour.tabular = true;
      axes.add({hour});
    }
    for (const Month& month : months()) {
      const double middle = (x_of(month.from) + x_of(month.to)) / 2;
      axes.add({print_words({middle, box_.top - 2.2}, std::string(short_month_name(month.month)),
                            Face::kSans, geometry::kLabelTypeMm, Anchor::kMiddle)});
      Text total = print_words({middle, box_.bottom + 5.4},
                               hours_figure(parts_.sheet.month_sun_h[month.month - 1],
                                            parts_.sheet.on_guesses[month.month - 1]),
                               Face::kSans, geometry::kTableTypeMm, Anchor::kMiddle);
      total.weight = geometry::Weight::kSemiBold;
      total.tabular = true;
      axes.add({total});
    }
    axes.add(
        {Shape{Path::box({box_.left, box_.top}, box_.right - box_.left, box_.bottom - box_.top),
               {},
               fine_line(Role::kInk)}});
    axes.add({print_words({box_.left - 2, box_.bottom + 5.4}, "h a day", Face::kSans,
                          geometry::kLabelTypeMm, Anchor::kEnd)});
  }

  const PrintParts& parts_;
  const SunPrint& print_;
  PaperBox box_;
  Group& into_;
  const PrintRegions& regions_;
  double first_h_ = 0, last_h_ = 24;
  std::set<int> named_;  // takers with a name or a disc in the picture
};

}  // namespace

void add_ink(Group& into, const Path& path, int ink) {
  into.add({Shape{path, {tint_of(ink), geometry::taker_fill(ink)}, std::nullopt}});
}

void add_stripes(Group& into, const Path& path, int ink, int other_ink) {
  const Path between = stripes(box_of(path), true);
  add_ink(into, path, ink);
  Group& other = into.add_group("stripes");
  other.clip = between;
  add_ink(other, path, other_ink);
  // A rim of paper, so that stripes of two graphites read as well.
  Group& rims = into.add_group("stripe-edges");
  rims.clip = path;
  geometry::Stroke rim = fine_line(Role::kPaper);
  rim.weight_mm = 0.35;
  rims.add({Shape{between, {}, rim}});
}

void draw_print_plot(const PrintParts& parts, const PaperBox& box, Group& into) {
  Plot(parts, box, into).draw();
}

}  // namespace spadework::light
