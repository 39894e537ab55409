#include "server/sheet_pieces.h"

#include <mutex>
#include <optional>
#include <set>
#include <unordered_map>

#include "garden/plan_drawing.h"
#include "light/light_drawing.h"
#include "server/piece_changes.h"
#include "sheets/sheets.h"

namespace spadework::server {
namespace {

constexpr const char* kThings =
    "<g id=\"things\" role=\"graphics-object\">\n<title>what stands in the garden</title>\n";
constexpr const char* kNames = "<g id=\"names\" role=\"graphics-object\">\n<title>names</title>\n";

/// Writes groups as text, one asker at a time.
class Pen {
 public:
  explicit Pen(const Workshop& workshop) : fonts_(workshop.fonts), lock_(workshop.fonts_busy) {
    options_.embed_fonts = false;
  }
  std::string write(const geometry::Group& group) {
    auto svg = sheets::to_svg(group, fonts_, options_);
    if (svg) return std::move(*svg);
    if (!error_) error_ = svg.error();
    return {};
  }
  /// All before the first element.
  std::string write_head(const geometry::Drawing& empty) {
    constexpr std::string_view kEnd = "</svg>\n";
    auto svg = sheets::to_svg(empty, fonts_, options_);
    if (svg) return svg->substr(0, svg->size() - kEnd.size());
    if (!error_) error_ = svg.error();
    return {};
  }
  [[nodiscard]] const std::optional<Error>& error() const { return error_; }

 private:
  const sheets::Fonts& fonts_;
  const std::scoped_lock<std::mutex> lock_;
  sheets::SvgOptions options_;
  std::optional<Error> error_;
};

/// Gives each id once.
class Ids {
 public:
  std::string once(const std::string& wanted) {
    std::string id = wanted;
    for (int n = 2; !taken_.insert(id).second; ++n) id = wanted + '-' + std::to_string(n);
    return id;
  }

 private:
  std::set<std::string> taken_;
};

template <class Piece>
std::unordered_map<std::string, const Piece*> by_id(const std::vector<Piece>* pieces) {
  std::unordered_map<std::string, const Piece*> out;
  if (pieces == nullptr) return out;
  for (const Piece& piece : *pieces) out.emplace(piece.id, &piece);
  return out;
}

std::vector<ThingPiece> thing_pieces(const garden::PlanView& view, Pen& pen,
                                     const std::vector<ThingPiece>* known) {
  const auto before = by_id(known);
  std::vector<ThingPiece> out;
  Ids ids;
  for (garden::PlanSymbol& symbol : garden::symbols_of(view)) {
    std::string id = ids.once(symbol.mark.id);
    const auto same = before.find(id);
    if (same != before.end() && same->second->symbol == symbol) {
      out.push_back(*same->second);
      continue;
    }
    geometry::Group group;
    draw(symbol, group);
    if (group.elements.empty()) continue;  // without extent
    if (auto* own = std::get_if<geometry::Group>(&group.elements.front().what)) own->id = id;
    auto svg = std::make_shared<const std::string>(pen.write(group));
    out.push_back({std::move(symbol), std::move(id), std::move(svg)});
  }
  return out;
}

/// draw_names() makes words that differ in these alone.
bool same_word(const geometry::Text& a, const geometry::Text& b) {
  return a.words == b.words && a.at == b.at && a.turn_rad == b.turn_rad && a.size_mm == b.size_mm &&
         a.halo_mm == b.halo_mm && a.face == b.face;
}

std::vector<NamePiece> name_pieces(const garden::PlanView& view, Pen& pen,
                                   const std::vector<NamePiece>* known) {
  geometry::Group names;
  garden::LabelRoom room;
  garden::draw_names(view, room, names);
  const auto before = by_id(known);
  std::vector<NamePiece> out;
  Ids ids;
  for (const geometry::Element& element : names.elements) {
    const auto* word = std::get_if<geometry::Text>(&element.what);
    if (word == nullptr) continue;
    std::string id = ids.once("name-" + word->words);
    const auto same = before.find(id);
    if (same != before.end() && same_word(same->second->word, *word)) {
      out.push_back(*same->second);
      continue;
    }
    geometry::Group group;
    geometry::Group& own = group.add_group(id);
    own.add({*word});
    out.push_back({*word, id, std::make_shared<const std::string>(pen.write(group))});
  }
  return out;
}

/// What one layer's pieces have become. False if those that stay stand in another order.
template <class Piece>
bool note_changes(const std::vector<Piece>& before, const std::vector<Piece>& now, Json& out) {
  const auto changes = piece_changes(before, now, [](const Piece& a, const Piece& b) {
    return a.svg == b.svg || *a.svg == *b.svg;
  });
  if (!changes) return false;
  out = {{"put", Json::array()}, {"gone", changes->gone}};
  for (const std::size_t i : changes->put) {
    out["put"].push_back({{"id", now[i].id}, {"before", id_after(now, i)}, {"svg", *now[i].svg}});
  }
  return true;
}

}  // namespace

std::string SheetPieces::whole() const {
  std::string out = head;
  for (const auto& [id, svg] : below) out += svg;
  out += kThings;
  for (const ThingPiece& piece : things) out += *piece.svg;
  out += "</g>\n";
  for (const auto& [id, svg] : above) out += svg;
  out += kNames;
  for (const NamePiece& piece : names) out += *piece.svg;
  return out + "</g>\n</svg>\n";
}

Result<SheetPieces> sheet_pieces(const study::Stand& stand, const garden::Garden* found,
                                 const SheetAsked& asked, const Workshop& workshop,
                                 const SheetPieces* known) {
  SheetPieces out;
  out.frame_m = asked.frame_m.value_or(light::sheet_frame(stand.garden));
  geometry::PlanOnPaper map;
  map.mm_per_m = asked.mm_per_m;
  map.origin = {-out.frame_m.low.x * asked.mm_per_m, out.frame_m.high.y * asked.mm_per_m};
  const garden::PlanView view{stand.garden,     found, stand.surface, workshop.known.catalogue, map,
                              asked.day_of_year};
  geometry::Drawing empty;
  empty.width_mm = out.frame_m.width() * asked.mm_per_m;
  empty.height_mm = out.frame_m.height() * asked.mm_per_m;
  empty.title = stand.garden.site.title;
  empty.paper = geometry::Paint{geometry::Role::kPaper, 0};

  Pen pen(workshop);
  out.head = pen.write_head(empty);
  const auto layer = [&](const char* id, const char* title, const auto& draw) {
    geometry::Group group;
    draw(view, group.add_group(id, title));
    return std::pair<std::string, std::string>(id, pen.write(group));
  };
  out.below = {layer("ground", "paths and areas", garden::draw_ground_cover),
               layer("in-ground", "what the ground hides", garden::draw_in_ground),
               layer("levels", "contours", garden::draw_levels)};
  if (stand.garden.boundary.size() >= 3) {
    const geometry::Mark mark = garden::boundary_mark(stand.garden);
    geometry::Group group;
    append_boundary(group, mark, map.paper(stand.garden.boundary));
    out.below.emplace_back(mark.id, pen.write(group));
  }
  out.above = {layer("sights", "lines of sight", garden::draw_sights)};
  out.things = thing_pieces(view, pen, known == nullptr ? nullptr : &known->things);
  out.names = name_pieces(view, pen, known == nullptr ? nullptr : &known->names);
  if (pen.error()) return tl::unexpected<Error>(*pen.error());
  return out;
}

Json changes_between(const SheetPieces& before, const SheetPieces& now) {
  const Json anew = {{"whole", true}};
  const auto& [low, high] = before.frame_m;
  if (before.head != now.head || !(low == now.frame_m.low) || !(high == now.frame_m.high) ||
      before.below.size() != now.below.size())
    return anew;
  Json out = {{"whole", false}, {"layers", Json::array()}};
  const auto note_layers = [&](const auto& was, const auto& is) {
    for (std::size_t i = 0; i < is.size(); ++i)
      if (was[i].second != is[i].second)
        out["layers"].push_back({{"id", is[i].first}, {"svg", is[i].second}});
  };
  note_layers(before.below, now.below);
  note_layers(before.above, now.above);
  if (!note_changes(before.things, now.things, out["things"]) ||
      !note_changes(before.names, now.names, out["names"]))
    return anew;
  return out;
}

}  // namespace spadework::server
