// The data as it is shipped: sourced, in order, possible.
#include "facts/facts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include "facts/test_catalogue.h"

namespace spadework::facts {

std::string file_text(const std::string& path) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/" + path, std::ios::binary);
  EXPECT_TRUE(in.good()) << path;
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

const Catalogue& shipped() {
  static const Catalogue catalogue = [] {
    auto read = CatalogueTexts().read();
    if (!read) {
      ADD_FAILURE() << read.error().where << ": " << read.error().message;
      return Catalogue{};
    }
    return std::move(*read);
  }();
  return catalogue;
}

namespace {

TEST(Data, HoldsTheKindsThatAGardenNeeds) {
  EXPECT_GE(shipped().trees.all().size(), 35U);
  EXPECT_GE(shipped().barriers.all().size(), 30U);
  EXPECT_GE(shipped().crops.all().size(), 75U);
  for (const char* id : {"arch", "obelisk", "trellis", "wires", "wigwam", "cage"}) {
    EXPECT_TRUE(shipped().knows("support", id)) << id;
  }
  for (const char* id : {"frame", "cloche", "fleece", "mesh", "net", "glasshouse"}) {
    EXPECT_TRUE(shipped().knows("cover", id)) << id;
  }
  for (const char* id : {"open", "trellis", "solid"}) {
    EXPECT_TRUE(shipped().knows("side", id)) << id;
  }
}

TEST(Data, EveryFactHasASourceThatResolves) {
  int facts = 0;
  each_fact(shipped(), [&](const std::string& what, const std::vector<std::string>& sources, auto) {
    ++facts;
    EXPECT_FALSE(sources.empty()) << what;
    for (const std::string& key : sources) EXPECT_NE(shipped().source(key), nullptr) << what;
  });
  EXPECT_GT(facts, 1000);
}

TEST(Data, AFactIsFromMemoryIfAndOnlyIfMemoryIsItsOnlySource) {
  each_fact(shipped(), [](const std::string& what, const std::vector<std::string>& sources,
                          Standing standing) {
    const bool memory_only = std::all_of(sources.begin(), sources.end(),
                                         [](const std::string& key) { return key == "memory"; });
    EXPECT_EQ(memory_only, standing == Standing::kFromMemory) << what;
  });
}

TEST(Data, APublishedFactWasReadInItsSource) {
  each_fact(shipped(), [](const std::string& what, const std::vector<std::string>& sources,
                          Standing standing) {
    if (standing != Standing::kPublished) return;
    for (const std::string& key : sources) {
      const std::string& seen = shipped().source(key)->seen;
      EXPECT_TRUE(seen == "read" || seen == "excerpt") << what << " " << key;
    }
  });
}

TEST(Data, CrownsLetSomeLightThroughAndMoreWhenBare) {
  for (const TreeKind& tree : shipped().trees.all()) {
    const BeamThroughCrown& beam = tree.beam_through;
    EXPECT_GT(beam.leaf_on.value, 0) << tree.id;
    EXPECT_LE(beam.leaf_on.value, beam.leaf_off.value) << tree.id;
    EXPECT_LE(beam.leaf_off.value, 1) << tree.id;
    EXPECT_GT(in_metres(beam.of_crown.value), 0) << tree.id;
    const bool evergreen = tree.leaves.habit == LeafHabit::kEvergreen;
    EXPECT_EQ(evergreen, beam.leaf_on.value == beam.leaf_off.value) << tree.id;
    EXPECT_GT(tree.crown_base_share.value, 0) << tree.id;
    EXPECT_LT(tree.crown_base_share.value, 1) << tree.id;
  }
}

TEST(Data, KeepsBeamAndTotalApart) {
  int with_total = 0;
  for (const TreeKind& tree : shipped().trees.all()) {
    const TotalThroughCrown& total = tree.total_through;
    if (total.leaf_on) {
      ++with_total;
      // The total holds the beam and light of the sky besides.
      EXPECT_GT(total.leaf_on->value, tree.beam_through.leaf_on.value) << tree.id;
      EXPECT_LE(total.leaf_on->value, 1) << tree.id;
    }
    if (total.leaf_off) {
      EXPECT_GT(total.leaf_off->value, tree.beam_through.leaf_off.value) << tree.id;
      EXPECT_GT(total.leaf_off->value, total.leaf_on->value) << tree.id;
    }
  }
  EXPECT_GE(with_total, 10);
}

TEST(Data, BarriersLetNoMoreThroughInLeafThanBare) {
  for (const BarrierKind& barrier : shipped().barriers.all()) {
    const ThroughLeaves& through = barrier.light_through;
    EXPECT_GE(through.leaf_on.value, 0) << barrier.id;
    EXPECT_LE(through.leaf_off.value, 1) << barrier.id;
    if (barrier.leaves.habit == LeafHabit::kEvergreen) {
      EXPECT_EQ(through.leaf_on.value, through.leaf_off.value) << barrier.id;
    } else {
      EXPECT_EQ(barrier.of, BarrierClass::kHedge) << barrier.id;
      EXPECT_LT(through.leaf_on.value, through.leaf_off.value) << barrier.id;
    }
  }
}

void expect_in_order(const std::string& id, const LeafDates& leaves) {
  if (leaves.habit == LeafHabit::kEvergreen) return;
  EXPECT_LT(leaves.out_start.value.number, leaves.full.value.number) << id;
  EXPECT_LT(leaves.full.value.number, leaves.fall_start.value.number) << id;
  EXPECT_LT(leaves.fall_start.value.number, leaves.bare.value.number) << id;
  EXPECT_GE(leaves.out_start.value.number, 60) << id;    // not before March
  EXPECT_LE(leaves.full.value.number, 172) << id;        // in full leaf by midsummer
  EXPECT_GE(leaves.fall_start.value.number, 258) << id;  // not before mid September
  EXPECT_NEAR(in_degrees(leaves.reference_latitude.value), 50, 1e-9) << id;
}

TEST(Data, LeafDatesAreInOrderAndInTheirSeasons) {
  for (const TreeKind& tree : shipped().trees.all()) expect_in_order(tree.id, tree.leaves);
  for (const BarrierKind& hedge : shipped().barriers.all()) expect_in_order(hedge.id, hedge.leaves);
}

TEST(Data, CropsAreAtMostAsTallAsTheirMost) {
  for (const Crop& crop : shipped().crops.all()) {
    EXPECT_GT(crop.height.value.min.si(), 0) << crop.id;
    EXPECT_LE(crop.height.value.min.si(), crop.height.value.max.si()) << crop.id;
    EXPECT_GT(crop.spread.value.min.si(), 0) << crop.id;
    EXPECT_LE(crop.spread.value.min.si(), crop.spread.value.max.si()) << crop.id;
    EXPECT_FALSE(crop.latin.empty()) << crop.id;
    EXPECT_EQ(crop.family.substr(crop.family.size() - 4), "ceae") << crop.id;
    EXPECT_TRUE(crop.climber || crop.life_form != LifeForm::kVine) << crop.id;
  }
}

template <class T>
void expect_plain_ids(const Kinds<T>& kinds) {
  for (const T& kind : kinds.all()) {
    const bool plain = std::all_of(kind.id.begin(), kind.id.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    EXPECT_TRUE(plain) << kind.id;
  }
}

TEST(Data, IdsAreShortLowerCaseAndHyphens) {
  expect_plain_ids(shipped().sources);
  expect_plain_ids(shipped().trees);
  expect_plain_ids(shipped().barriers);
  expect_plain_ids(shipped().supports);
  expect_plain_ids(shipped().sides);
  expect_plain_ids(shipped().covers);
  expect_plain_ids(shipped().crops);
  expect_plain_ids(shipped().vocabulary);
}

/// Every name, spoken name and id leads to the kind itself: no name is shared, not even by plurals.
template <class T>
void expect_names_lead_home(const Kinds<T>& kinds) {
  for (const T& kind : kinds.all()) {
    EXPECT_EQ(kinds.find(kind.id), &kind) << kind.id;
    EXPECT_EQ(kinds.find(kind.says), &kind) << kind.says;
    for (const std::string& name : kind.also) EXPECT_EQ(kinds.find(name), &kind) << name;
  }
}

TEST(Data, EveryNameLeadsToItsOwnKind) {
  expect_names_lead_home(shipped().trees);
  expect_names_lead_home(shipped().barriers);
  expect_names_lead_home(shipped().supports);
  expect_names_lead_home(shipped().sides);
  expect_names_lead_home(shipped().covers);
  expect_names_lead_home(shipped().crops);
}

TEST(Data, HasAMeaningForEveryWord) {
  const std::set<std::string> lists = {"surface", "treatment", "material", "patch", "texture",
                                       "service", "roof",      "family",   "form"};
  std::set<std::string> found;
  for (const WordList& list : shipped().vocabulary.all()) {
    found.insert(list.id);
    EXPECT_GE(list.words.all().size(), 5U) << list.id;
    for (const Word& word : list.words.all()) EXPECT_FALSE(word.says.empty()) << word.id;
  }
  EXPECT_EQ(found, lists);
  EXPECT_EQ(shipped().word("family", "carrot family")->id, "umbellifer");
  EXPECT_EQ(shipped().word("surface", "wood chip")->id, "wood chips");
}

TEST(Catalogue, AnswersInTheGrowersWords) {
  const Catalogue& catalogue = shipped();
  EXPECT_EQ(catalogue.trees.find("Silver Birch")->id, "birch");
  EXPECT_EQ(catalogue.crops.find("garden peas")->id, "pea");
  EXPECT_EQ(catalogue.crops.find("gooseberries")->id, "gooseberry");
  EXPECT_EQ(catalogue.crops.find("eggplant")->id, "aubergine");
  EXPECT_EQ(catalogue.crops.find("sunchoke")->id, "jerusalem-artichoke");
  EXPECT_EQ(catalogue.barriers.find("close board")->id, "close-board");
  EXPECT_EQ(catalogue.barriers.find("hawthorn hedge")->id, "hawthorn-hedge");
  EXPECT_EQ(catalogue.covers.find("Greenhouse")->id, "glasshouse");
  EXPECT_EQ(catalogue.word("patch", "ground elder")->id, "ground elder");
  EXPECT_EQ(catalogue.word("family", "brassicas")->id, "brassica");
  EXPECT_EQ(catalogue.word("nonsense", "gravel"), nullptr);
  EXPECT_EQ(catalogue.trees.find("lamp post"), nullptr);
}

TEST(Catalogue, NamesAreKnownAndNoneAreLeftOut) {
  for (const char* list :
       {"tree", "barrier", "support", "side", "cover", "crop", "surface", "treatment", "material",
        "patch", "texture", "service", "roof", "family", "form"}) {
    const auto names = shipped().names_of(list);
    EXPECT_FALSE(names.empty()) << list;
    for (const std::string& name : names) EXPECT_TRUE(shipped().knows(list, name)) << name;
  }
  const auto trees = shipped().names_of("tree");
  for (const char* name : {"medlar", "horse-chestnut", "conker tree"}) {
    EXPECT_NE(std::find(trees.begin(), trees.end(), name), trees.end()) << name;
  }
  EXPECT_TRUE(shipped().names_of("nonsense").empty());
  EXPECT_FALSE(shipped().knows("nonsense", "gravel"));
}

TEST(Catalogue, AnswersToExactSourceKeysOnly) {
  ASSERT_NE(shipped().source("fao56"), nullptr);
  EXPECT_NE(shipped().source("fao56")->citation.find("Allen RG"), std::string::npos);
  EXPECT_EQ(shipped().source("FAO-56"), nullptr);
  EXPECT_EQ(shipped().source("fao56s"), nullptr);
}

TEST(TraceOfFact, TellsValueUnitSourceAndStanding) {
  const TreeKind* maple = shipped().trees.find("sugar maple");
  const Trace through = trace_of(*maple->total_through.leaf_on, "total light", "");
  EXPECT_EQ(through.name, "total light");
  EXPECT_EQ(through.value, "0.2");
  EXPECT_DOUBLE_EQ(through.number, 0.2);
  EXPECT_TRUE(through.has_number);
  EXPECT_EQ(through.sources, std::vector<std::string>{"heisler1986"});
  EXPECT_EQ(through.standing, Standing::kPublished);
  EXPECT_TRUE(through.inputs.empty());
  EXPECT_EQ(trace_of(maple->leaves.out_start, "first leaf").value, "28 April");
  EXPECT_EQ(trace_of(maple->leaves.reference_latitude, "latitude").value, "50 deg");
  EXPECT_EQ(trace_of(maple->beam_through.of_crown, "crown").value, "8 m");
  const Crop* chard = shipped().crops.find("chard");
  EXPECT_EQ(trace_of(chard->height, "height").value, "0.4 to 0.6 m");
  EXPECT_EQ(trace_of(chard->height, "height").unit, "m");
  const Crop* carrot = shipped().crops.find("carrot");
  EXPECT_EQ(trace_of(carrot->height, "height").value, "0.3 m");
  EXPECT_EQ(trace_of(carrot->height, "height").standing, Standing::kPublished);
}

// Allen et al. 1998, FAO-56, Table 12: greatest heights of field crops. [fao56]
TEST(CropHeightGolden, IsThatOfFao56WhereItIsTheSource) {
  const std::pair<const char*, double> printed[] = {
      {"dwarf-bean", 0.4}, {"carrot", 0.3}, {"cabbage", 0.4}, {"cauliflower", 0.4},
      {"lettuce", 0.3},    {"potato", 0.6}, {"celery", 0.6},  {"aubergine", 0.8},
      {"radish", 0.3},     {"garlic", 0.3}, {"spinach", 0.3}, {"sweet pepper", 0.7}};
  for (const auto& [name, height_m] : printed) {
    const Crop* crop = shipped().crops.find(name);
    ASSERT_NE(crop, nullptr) << name;
    EXPECT_DOUBLE_EQ(in_metres(crop->height.value.max), height_m) << name;
    EXPECT_EQ(crop->height.sources, std::vector<std::string>{"fao56"}) << name;
    EXPECT_EQ(crop->height.standing, Standing::kPublished) << name;
  }
}

}  // namespace
}  // namespace spadework::facts
