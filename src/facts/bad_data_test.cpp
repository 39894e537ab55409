// Mistakes in the data are told with their place, never passed over.
#include <gtest/gtest.h>

#include "facts/test_catalogue.h"

namespace spadework::facts {
namespace {

constexpr const char* kTree = R"(unless_said = { source = "memory", standing = "from_memory" }
reference_latitude_deg = 50
[kind.apple]
latin = "Malus"
habit = "deciduous"
shape = "round"
crown_base_share = 0.3
leaves = ["04-12", "05-15", "10-15", "11-20"]
beam_through = { leaf_on = 0.2, leaf_off = 0.7, of_crown_m = 3 }
)";

/// The error that the trees give with one part of the text changed.
Error with(const std::string& part, const std::string& other) {
  CatalogueTexts texts;
  texts.trees = kTree;
  const auto at = texts.trees.find(part);
  if (at == std::string::npos) {
    ADD_FAILURE() << part;
    return {};
  }
  texts.trees.replace(at, part.size(), other);
  const auto read = texts.read();
  EXPECT_FALSE(read.has_value()) << other;
  return read ? Error{} : read.error();
}

TEST(BadData, TheExampleItselfIsSound) {
  CatalogueTexts texts;
  texts.trees = kTree;
  EXPECT_TRUE(texts.read().has_value());
}

TEST(BadData, SyntaxIsToldWithItsPlace) {
  const Error error = with("latin = ", "latin ");
  EXPECT_EQ(error.code, ErrorCode::kSyntax);
  EXPECT_EQ(error.where.substr(0, 13), "trees.toml:4:");
}

TEST(BadData, AnUnknownKeyIsToldWithTheKnownOnes) {
  const Error error = with("shape = ", "shap = ");
  EXPECT_EQ(error.code, ErrorCode::kUnknownKey);
  EXPECT_EQ(error.where, "trees.toml:6:8");
  EXPECT_NE(error.hint.find("crown_base_share"), std::string::npos);
}

TEST(BadData, AMissingKeyIsTold) {
  const Error error = with("crown_base_share = 0.3\n", "");
  EXPECT_EQ(error.code, ErrorCode::kMissingKey);
  EXPECT_EQ(error.message, "apple has no crown_base_share");
}

TEST(BadData, AFigureWithoutAnySourceIsTold) {
  EXPECT_EQ(with("unless_said = { source = \"memory\", standing = \"from_memory\" }", "").code,
            ErrorCode::kMissingKey);
}

TEST(BadData, AnUnknownSourceIsTold) {
  const Error error = with(
      "leaf_on = 0.2", "leaf_on = { value = 0.2, source = \"hearsay\", standing = \"published\" }");
  EXPECT_EQ(error.code, ErrorCode::kUnknownId);
  EXPECT_EQ(error.message, "no such source: hearsay");
}

TEST(BadData, MemoryCannotBePublished) {
  EXPECT_EQ(with("leaf_on = 0.2",
                 "leaf_on = { value = 0.2, source = \"memory\", standing = \"published\" }")
                .code,
            ErrorCode::kImpossibleValue);
}

TEST(BadData, APaperCannotBeFromMemory) {
  EXPECT_EQ(with("leaf_on = 0.2",
                 "leaf_on = { value = 0.2, source = \"fao56\", standing = \"from_memory\" }")
                .code,
            ErrorCode::kImpossibleValue);
}

TEST(BadData, ASourceWithoutAStandingIsTold) {
  EXPECT_EQ(with("leaf_on = 0.2", "leaf_on = { value = 0.2, source = \"fao56\" }").code,
            ErrorCode::kMissingKey);
}

TEST(BadData, SharesOutsideNoneAndAllAreTold) {
  EXPECT_EQ(with("leaf_on = 0.2", "leaf_on = 1.2").code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(with("leaf_on = 0.2", "leaf_on = -0.1").code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(with("leaf_on = 0.2", "leaf_on = nan").code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(with("leaf_on = 0.2", "leaf_on = \"some\"").code, ErrorCode::kWrongType);
}

TEST(BadData, LeafDatesOutOfOrderAreTold) {
  EXPECT_EQ(with("\"05-15\"", "\"04-01\"").code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(with("\"05-15\"", "\"05-32\"").code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(with("\"05-15\", ", "").code, ErrorCode::kWrongType);
}

TEST(BadData, UnknownWordsAreTold) {
  EXPECT_EQ(with("\"round\"", "\"square\"").code, ErrorCode::kUnknownKind);
  EXPECT_EQ(with("\"deciduous\"", "\"bald\"").code, ErrorCode::kUnknownKind);
  EXPECT_EQ(with("shape = ", "like = \"nothing\"\nshape = ").code, ErrorCode::kUnknownKind);
}

TEST(BadData, TwoKindsOfOneNameAreTold) {
  CatalogueTexts texts;
  texts.covers += "\n[kind.film]\nalso = [\"Fleece\"]\nlight_through = 0.8\nheight_m = 0.3\n";
  const auto read = texts.read();
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().code, ErrorCode::kRepeatedId);
  EXPECT_EQ(read.error().where, "covers.toml");
}

TEST(BadData, ARangeTheWrongWayRoundIsTold) {
  CatalogueTexts texts;
  texts.crops +=
      "\n[family.Testaceae]\nthing = { latin = \"T\", life_form = \"annual\", "
      "height_m = [2, 1], spread_m = [1, 2] }\n";
  const auto read = texts.read();
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().code, ErrorCode::kImpossibleValue);
}

constexpr const char* kCrop = R"(unless_said = { source = "memory", standing = "from_memory" }
reference_latitude_deg = 50
[group.annual]
grows = "sown"
leaf_area = 3
extinction = 0.6
foot_share = 0
planted = "04-10"
stages_d = [30, 40, 50, 20]
[family.Testaceae]
thing = { latin = "T", life_form = "annual", height_m = [1, 2], spread_m = [1, 2] }
)";

Error with_crop(const std::string& part, const std::string& other) {
  CatalogueTexts texts;
  texts.crops = kCrop;
  const auto at = texts.crops.find(part);
  if (at == std::string::npos) {
    ADD_FAILURE() << part;
    return {};
  }
  texts.crops.replace(at, part.size(), other);
  const auto read = texts.read();
  EXPECT_FALSE(read.has_value()) << other;
  return read ? Error{} : read.error();
}

TEST(BadCropData, TheExampleItselfIsSound) {
  CatalogueTexts texts;
  texts.crops = kCrop;
  EXPECT_TRUE(texts.read().has_value());
}

TEST(BadCropData, ImpossibleGrowthIsTold) {
  const auto code = [](const char* part, const char* other) {
    const Error error = with_crop(part, other);
    EXPECT_EQ(error.where.substr(0, 11), "crops.toml:") << other;
    return error.code;
  };
  EXPECT_EQ(code("leaf_area = 3", "leaf_area = -3"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("leaf_area = 3", "leaf_area = 300"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("leaf_area = 3", ""), ErrorCode::kMissingKey);
  EXPECT_EQ(code("extinction = 0.6", "extinction = nan"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("foot_share = 0", "foot_share = 1"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("\"sown\"", "\"sideways\""), ErrorCode::kUnknownKind);
  EXPECT_EQ(code("\"sown\"", "\"woody\""), ErrorCode::kMissingKey);  // no bare_share, no leaves
  EXPECT_EQ(code("\"04-10\"", "\"04-31\""), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("\"04-10\"", "410"), ErrorCode::kWrongType);
  EXPECT_EQ(code("[30, 40, 50, 20]", "[30, 40, 50]"), ErrorCode::kWrongType);
  EXPECT_EQ(code("[30, 40, 50, 20]", "[0, 40, 50, 20]"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("[30, 40, 50, 20]", "[130, 140, 90, 20]"), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("[30, 40, 50, 20]", "[30, 40, 50, \"20\"]"), ErrorCode::kWrongType);
  EXPECT_EQ(code("[group.annual]", "[group.weed]"), ErrorCode::kUnknownKind);
  EXPECT_EQ(code("\"T\", ", "\"T\", like = \"weed\", "), ErrorCode::kUnknownKind);
  EXPECT_EQ(code("\"T\", ", "\"T\", fades = 1, "), ErrorCode::kWrongType);
  EXPECT_EQ(code("\"T\", ", "\"T\", flat = \"yes\", "), ErrorCode::kWrongType);
  EXPECT_EQ(code("\"T\", ", "\"T\", until = \"never\", "), ErrorCode::kImpossibleValue);
  EXPECT_EQ(code("leaf_area = 3", "leaf_area = 3\nleafs = 3"), ErrorCode::kUnknownKey);
}

TEST(BadData, NeitherEmptyNorTornFilesStopTheProgram) {
  CatalogueTexts whole;
  for (std::string CatalogueTexts::*file :
       {&CatalogueTexts::sources, &CatalogueTexts::trees, &CatalogueTexts::barriers,
        &CatalogueTexts::supports, &CatalogueTexts::covers, &CatalogueTexts::crops}) {
    CatalogueTexts texts = whole;
    (texts.*file).clear();
    EXPECT_FALSE(texts.read().has_value());
    texts.*file = "kind = 3\nsources = 4\nfamily = [5]\nunless_said = \"\"\n";
    EXPECT_FALSE(texts.read().has_value());
    for (std::size_t cut = 1; cut < (whole.*file).size(); cut += (whole.*file).size() / 7) {
      texts.*file = (whole.*file).substr(0, cut);
      const auto read = texts.read();  // an error or fewer kinds, never a crash
      EXPECT_TRUE(read.has_value() || !read.error().where.empty());
    }
  }
}

}  // namespace
}  // namespace spadework::facts
