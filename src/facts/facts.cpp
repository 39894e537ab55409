#include "facts/facts.h"

#include <utility>

#include "facts/read_kinds.h"

namespace spadework::facts {
namespace {

/// Reads one file with facts into `into`; false after a mistake, which is left in `error`.
template <class T>
bool take(Result<Kinds<T>> read, Kinds<T>& into, Error& error) {
  if (!read) {
    error = std::move(read.error());
    return false;
  }
  into = std::move(*read);
  return true;
}

template <class T>
using KindsReader = Result<Kinds<T>> (*)(FactReader&, const DataValue&);

template <class T>
bool take_file(const std::string& file, std::string_view bytes, KindsReader<T> read,
               const Kinds<Source>& sources, Kinds<T>& into, Error& error) {
  auto root = read_data_file(file, bytes);
  if (!root) {
    error = std::move(root.error());
    return false;
  }
  FactReader reader(file, *root, &sources);
  return take(read(reader, *root), into, error);
}

template <class T>
bool take_plain_file(const std::string& file, std::string_view bytes,
                     Result<Kinds<T>> (*read)(const DataValue&, const std::string&), Kinds<T>& into,
                     Error& error) {
  auto root = read_data_file(file, bytes);
  if (!root) {
    error = std::move(root.error());
    return false;
  }
  return take(read(*root, file), into, error);
}

template <class Use>
auto with_list(const Catalogue& catalogue, std::string_view list, Use use)
    -> decltype(use(catalogue.trees)) {
  if (list == "tree") return use(catalogue.trees);
  if (list == "barrier") return use(catalogue.barriers);
  if (list == "support") return use(catalogue.supports);
  if (list == "side") return use(catalogue.sides);
  if (list == "cover") return use(catalogue.covers);
  if (list == "crop") return use(catalogue.crops);
  if (const WordList* words = catalogue.vocabulary.find(list)) return use(words->words);
  return {};
}

}  // namespace

std::string_view crown_shape_name(CrownShape shape) {
  switch (shape) {
    case CrownShape::kRound:
      return "round";
    case CrownShape::kColumn:
      return "column";
    case CrownShape::kCone:
      return "cone";
    case CrownShape::kSpreading:
      return "spreading";
  }
  return "round";
}

const Fact<double>* light_through(const TreeKind& tree, LightQuantity quantity, bool in_leaf) {
  if (quantity == LightQuantity::kBeam)
    return in_leaf ? &tree.beam_through.leaf_on : &tree.beam_through.leaf_off;
  const std::optional<Fact<double>>& total =
      in_leaf ? tree.total_through.leaf_on : tree.total_through.leaf_off;
  return total ? &*total : nullptr;
}

std::string_view barrier_class_name(BarrierClass of) {
  switch (of) {
    case BarrierClass::kWall:
      return "wall";
    case BarrierClass::kFence:
      return "fence";
    case BarrierClass::kHedge:
      return "hedge";
  }
  return "wall";
}

std::string_view life_form_name(LifeForm form) {
  switch (form) {
    case LifeForm::kAnnual:
      return "annual";
    case LifeForm::kBiennial:
      return "biennial";
    case LifeForm::kPerennial:
      return "perennial";
    case LifeForm::kSubShrub:
      return "sub-shrub";
    case LifeForm::kShrub:
      return "shrub";
    case LifeForm::kCane:
      return "cane";
    case LifeForm::kVine:
      return "vine";
    case LifeForm::kTree:
      return "tree";
  }
  return "annual";
}

const Source* Catalogue::source(std::string_view key) const {
  const Source* found = sources.find(key);
  return found != nullptr && found->id == key ? found : nullptr;
}

const Word* Catalogue::word(std::string_view list, std::string_view word) const {
  const WordList* words = vocabulary.find(list);
  return words == nullptr ? nullptr : words->words.find(word);
}

bool Catalogue::knows(std::string_view list, std::string_view name) const {
  return with_list(*this, list, [&](const auto& kinds) { return kinds.find(name) != nullptr; });
}

std::vector<std::string> Catalogue::names_of(std::string_view list) const {
  return with_list(*this, list, [](const auto& kinds) { return kinds.names(); });
}

Result<Catalogue> read_catalogue(const CatalogueBytes& bytes) {
  Catalogue made;
  Error error;
  const Kinds<Source>& sources = made.sources;
  const bool whole =
      take_plain_file("sources.toml", bytes.sources, read_sources, made.sources, error) &&
      take_file("trees.toml", bytes.trees, read_trees, sources, made.trees, error) &&
      take_file("barriers.toml", bytes.barriers, read_barriers, sources, made.barriers, error) &&
      take_file("supports.toml", bytes.supports, read_supports, sources, made.supports, error) &&
      take_file("supports.toml", bytes.supports, read_sides, sources, made.sides, error) &&
      take_file("covers.toml", bytes.covers, read_covers, sources, made.covers, error) &&
      take_file("crops.toml", bytes.crops, read_crops, sources, made.crops, error) &&
      take_plain_file("vocabulary.toml", bytes.vocabulary, read_vocabulary, made.vocabulary, error);
  if (!whole) return tl::unexpected<Error>(std::move(error));
  return made;
}

}  // namespace spadework::facts
