#include "facts/read_kinds.h"

namespace spadework::facts {
namespace {

constexpr double kThickest_m = 5, kWidest_m = 20;

BarrierKind read_barrier(FactReader& reader, const DataValue& kind, const DataValue& latitude) {
  reader.only(kind, {"says", "also", "class", "thickness_m", "light_through", "habit", "leaves"});
  auto barrier = named<BarrierKind>(reader, kind);
  barrier.of = static_cast<BarrierClass>(
      reader.choice(reader.needed(kind, "class"), {"wall", "fence", "hedge"}));
  barrier.thickness = reader.length(reader.needed(kind, "thickness_m"), 0.001, kThickest_m);
  const DataValue& light = reader.needed(kind, "light_through");
  if (kind.find("leaves") == nullptr) {
    const Fact<double> through = reader.number(light, 0, 1);
    barrier.light_through = {through, through};
    return barrier;
  }
  reader.only(light, {"leaf_on", "leaf_off"});
  barrier.light_through = {reader.number(reader.needed(light, "leaf_on"), 0, 1),
                           reader.number(reader.needed(light, "leaf_off"), 0, 1)};
  barrier.leaves.habit = static_cast<LeafHabit>(
      reader.choice(reader.needed(kind, "habit"), {"deciduous", "marcescent"}));
  reader.leaf_days(*kind.find("leaves"), barrier.leaves);
  barrier.leaves.reference_latitude = reader.angle(latitude, 0, 90);
  return barrier;
}

/// `word = "meaning"` or `word = { says = "meaning", also = ["other word"] }`.
Word read_word(FactReader& reader, const DataValue& word) {
  if (word.form != DataValue::Form::kTable) return {word.key, {}, reader.text(word)};
  reader.only(word, {"says", "also"});
  return {word.key, reader.texts(word, "also"), reader.text(reader.needed(word, "says"))};
}

}  // namespace

Result<Kinds<Source>> read_sources(const DataValue& root, const std::string& file) {
  FactReader reader(file, root, nullptr);
  reader.only(root, {"sources"});
  std::vector<Source> sources;
  for (const DataValue& item : reader.needed(root, "sources").items) {
    reader.only(item, {"citation", "kind", "seen", "licence", "note"});
    Source source;
    source.id = item.key;
    source.citation = reader.text(reader.needed(item, "citation"));
    source.kind = reader.text(reader.needed(item, "kind"));
    source.seen = reader.text(reader.needed(item, "seen"));
    reader.choice(reader.needed(item, "seen"), {"read", "excerpt", "reproduction", "memory"});
    source.licence = reader.text_or(item, "licence", {});
    source.note = reader.text_or(item, "note", {});
    sources.push_back(std::move(source));
  }
  return finish(reader, std::move(sources));
}

Result<Kinds<WordList>> read_vocabulary(const DataValue& root, const std::string& file) {
  FactReader reader(file, root, nullptr);
  std::vector<WordList> lists;
  for (const DataValue& item : root.items) {
    std::vector<Word> words;
    for (const DataValue& word : item.items) words.push_back(read_word(reader, word));
    auto kinds = finish(reader, std::move(words));
    if (!kinds) return tl::unexpected<Error>(kinds.error());
    lists.push_back({item.key, {}, std::move(*kinds)});
  }
  return finish(reader, std::move(lists));
}

Result<Kinds<BarrierKind>> read_barriers(FactReader& reader, const DataValue& root) {
  reader.only(root, {"unless_said", "reference_latitude_deg", "kind"});
  const DataValue& latitude = reader.needed(root, "reference_latitude_deg");
  std::vector<BarrierKind> barriers;
  for (const DataValue& kind : reader.needed(root, "kind").items) {
    barriers.push_back(read_barrier(reader, kind, latitude));
  }
  return finish(reader, std::move(barriers));
}

Result<Kinds<SupportKind>> read_supports(FactReader& reader, const DataValue& root) {
  reader.only(root, {"unless_said", "kind", "sides"});
  std::vector<SupportKind> supports;
  for (const DataValue& kind : reader.needed(root, "kind").items) {
    reader.only(kind, {"says", "also", "width_m", "depth_m", "light_through"});
    auto support = named<SupportKind>(reader, kind);
    support.width = reader.length(reader.needed(kind, "width_m"), 0.01, kWidest_m);
    support.depth = reader.length(reader.needed(kind, "depth_m"), 0.001, kWidest_m);
    support.light_through = reader.number(reader.needed(kind, "light_through"), 0, 1);
    supports.push_back(std::move(support));
  }
  return finish(reader, std::move(supports));
}

Result<Kinds<SideKind>> read_sides(FactReader& reader, const DataValue& root) {
  std::vector<SideKind> sides;
  for (const DataValue& kind : reader.needed(root, "sides").items) {
    reader.only(kind, {"says", "also", "light_through"});
    auto side = named<SideKind>(reader, kind);
    side.light_through = reader.number(reader.needed(kind, "light_through"), 0, 1);
    sides.push_back(std::move(side));
  }
  return finish(reader, std::move(sides));
}

Result<Kinds<CoverKind>> read_covers(FactReader& reader, const DataValue& root) {
  reader.only(root, {"unless_said", "kind"});
  std::vector<CoverKind> covers;
  for (const DataValue& kind : reader.needed(root, "kind").items) {
    reader.only(kind, {"says", "also", "light_through", "height_m"});
    auto cover = named<CoverKind>(reader, kind);
    cover.light_through = reader.number(reader.needed(kind, "light_through"), 0, 1);
    cover.height = reader.length(reader.needed(kind, "height_m"), 0.01, kWidest_m);
    covers.push_back(std::move(cover));
  }
  return finish(reader, std::move(covers));
}

}  // namespace spadework::facts
