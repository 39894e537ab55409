// The schema descriptor: complete, consistent, and the documentation made from it.
#include "garden/schema.h"

#include <gtest/gtest.h>

#include <charconv>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace spadework::garden {
namespace {

using Names = std::vector<std::string>;

std::string file_text(const std::string& path) {
  std::ifstream file(std::string(SPADEWORK_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::stringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// Every key with its path, those within records too.
template <class Use>
void each_key(const std::vector<KeySchema>& keys, const std::string& path, const Use& use);
template <class Use>
void each_key_within(const TypeSchema& type, const std::string& path, const Use& use) {
  each_key(type.fields, path, use);
  for (const TypeSchema& item : type.item) each_key_within(item, path, use);
}
template <class Use>
void each_key(const std::vector<KeySchema>& keys, const std::string& path, const Use& use) {
  for (const KeySchema& key : keys) {
    use(path + "." + key.name, key);
    each_key_within(key.type, path + "." + key.name, use);
  }
}
template <class Use>
void each_key(const Use& use) {
  for (const TableSchema& table : schema()) each_key(table.keys, table.name, use);
}

TEST(TheDocumentation, IsMadeFromTheSchema) {
  EXPECT_EQ(file_text("docs/document.md"), schema_document())
      << "write it anew: spadework document > docs/document.md";
}

/// What a garden document can say, table by table; those of a record after a dot.
const std::map<std::string, Names>& wanted_keys() {
  static const std::map<std::string, Names> all = {
      {"format", {"format"}},
      {"garden",
       {"title", "latitude_deg", "longitude_deg", "elevation_m", "time_zone", "plan_north_deg",
        "units", "household", "exposure", "frost_pocket", "currency"}},
      {"climate", {"station", "weather_file"}},
      {"climate.month", {"month", "tmax_c", "tmin_c", "rain_mm", "sunshine_h_per_day"}},
      {"boundary", {"outline", "sides_m", "diagonal_m"}},
      {"ground",
       {"texture", "ph", "topsoil_m", "percolation_mm_h", "stones", "spots", "falls_m",
        "toward_deg", "over", "horizon"}},
      {"survey", {"fixed", "ties", "offsets", "diagonals", "levels", "benchmark"}},
      {"patch", {"id", "outline", "what", "depth_m"}},
      {"picture", {"id", "file", "at", "width_m", "turn_deg", "shown"}},
      {"wall", {"id", "line", "height_m", "thickness_m", "kind", "top", "light_through", "mine"}},
      {"building",
       {"id", "outline", "eaves_m", "ridge_m", "roof", "ridge_deg", "high_side", "roof_material",
        "gutter"}},
      {"tree",
       {"id", "kind", "at", "height_m", "crown_base_m", "crown_width_m", "shape", "stem_m",
        "condition", "mine"}},
      {"bed",
       {"id",
        "at",
        "size",
        "turn_deg",
        "outline",
        "boards",
        "boards.height",
        "boards.courses",
        "boards.thickness",
        "level",
        "level_m",
        "level_with",
        "freeboard_m",
        "set_in",
        "mix",
        "mix.material",
        "mix.share",
        "cap",
        "cap.material",
        "cap.depth_m",
        "slice_m",
        "history",
        "sowing"}},
      {"path", {"id", "line", "width_m", "surface", "depth_m", "edging", "steps"}},
      {"area",
       {"id", "outline", "treatment", "sheet", "sheet.size", "sheet.overlap_m", "depth_m",
        "material"}},
      {"support", {"id", "kind", "at", "line", "height_m", "width_m", "depth_m", "crop"}},
      {"seat",
       {"id", "at", "facing", "eye_m", "size", "height_m", "roof", "roof.height_m",
        "roof.overhang_m", "sides"}},
      {"point", {"id", "at", "kind", "eye_m", "facing"}},
      {"gate", {"id", "at", "width_m", "lane"}},
      {"plant",
       {"id", "crop", "at", "row", "count", "outline", "planted", "stock", "rootstock", "partner"}},
      {"container", {"id", "at", "volume_l", "height_m", "crop"}},
      {"cover", {"id", "kind", "over", "outline", "height_m", "from", "until"}},
      {"tank", {"id", "at", "litres", "fed_by"}},
      {"service", {"id", "line", "kind", "depth_m"}},
      {"object", {"id", "outline", "height_m", "what"}},
      {"view", {"id", "from", "to", "thing", "corridor_m"}},
      {"hide", {"id", "from", "to", "thing", "corridor_m"}},
      {"watch", {"id", "from", "to", "thing", "corridor_m"}},
      {"want", {"crop", "amount", "form", "sown", "priority"}},
      {"stand", {"bed", "from", "to", "crop", "start", "end"}},
      {"task", {"id", "after", "hours", "done", "locked"}},
      {"stock", {"material", "amount"}},
      {"raising",
       {"spaces", "spaces.where", "spaces.size_m", "spaces.warm", "spaces.until", "tray_m"}},
      {"labour",
       {"start", "finish_by", "days", "hours_per_day", "people", "people.name", "people.effort",
        "people.mass_kg", "weeks_away"}},
      {"prices", {"*", "*.pack", "*.price", "*.tonnes", "*.m3"}},
      {"crop", {"spacing_m", "height_m", "note"}},
      {"scheme", {"id"}},
      {"change", {"thing", "scheme"}},
  };
  return all;
}

TEST(TheSchema, HasEveryTableAndKey) {
  std::set<std::string> there;
  each_key([&](const std::string& path, const KeySchema&) { there.insert(path); });
  for (const auto& [table, keys] : wanted_keys()) {
    EXPECT_NE(find_table(table), nullptr) << table;
    for (const std::string& key : keys) {
      EXPECT_EQ(there.count(table + "." + key), 1u) << table << "." << key;
    }
  }
  for (const TableSchema& table : schema()) {
    EXPECT_EQ(wanted_keys().count(table.name), 1u) << table.name << " is told nowhere";
  }
}

TEST(TheSchema, NeedsWhatAGardenCannotDoWithout) {
  const std::map<std::string, Names> needed = {
      {"garden", {"title", "latitude_deg", "longitude_deg", "time_zone"}},
      {"wall", {"id", "line", "height_m", "kind"}},
      {"building", {"id", "outline", "eaves_m"}},
      {"tree", {"id", "kind", "at", "height_m", "crown_width_m"}},
      {"bed", {"id"}},
      {"path", {"id", "line", "width_m"}},
      {"area", {"id", "outline", "treatment"}},
      {"support", {"id", "kind", "height_m"}},
      {"seat", {"id", "at", "facing"}},
      {"point", {"id", "at"}},
      {"gate", {"id", "at", "width_m"}},
      {"plant", {"id", "crop"}},
      {"container", {"id", "at", "volume_l"}},
      {"cover", {"id"}},
      {"tank", {"id", "at", "litres"}},
      {"service", {"id", "line"}},
      {"object", {"id", "outline", "height_m"}},
      {"want", {"crop", "amount"}},
      {"labour", {"start"}},
  };
  for (const auto& [name, keys] : needed) {
    const TableSchema& table = *find_table(name);
    for (const std::string& key : keys) {
      EXPECT_TRUE(find_key(table, key)->needed) << name << "." << key;
    }
  }
}

TEST(EveryThing, TakesTheCommonKeys) {
  for (const TableSchema& table : schema()) {
    if (!table.thing) continue;
    for (const char* key : {"status", "removed", "phase", "locked", "note", "guessed", "scheme"}) {
      EXPECT_NE(find_key(table, key), nullptr) << table.name << "." << key;
    }
  }
  for (const char* table : {"wall", "bed", "tree", "patch", "view", "want", "task", "stock"}) {
    EXPECT_TRUE(find_table(table)->thing) << table;
  }
}

TEST(Names, AreUnique) {
  std::set<std::string> tables, paths;
  for (const TableSchema& table : schema()) {
    EXPECT_TRUE(tables.insert(table.name).second) << table.name;
  }
  each_key([&](const std::string& path, const KeySchema&) {
    EXPECT_TRUE(paths.insert(path).second) << path;
  });
}

TEST(Names, AreLowerCaseAndTellTheirUnit) {
  each_key([](const std::string& path, const KeySchema& key) {
    EXPECT_EQ(key.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_*"),
              std::string::npos)
        << path;
    const auto ends = [&](std::string_view end) { return key.name.ends_with(end); };
    if (ends("_c")) {
      EXPECT_EQ(key.type.type, ValueType::kTemperature) << path;
    }
    if (ends("_deg")) {
      EXPECT_EQ(key.type.type, ValueType::kAngle) << path;
    }
    if (key.type.type == ValueType::kTemperature) {
      EXPECT_TRUE(ends("_c")) << path;
    }
  });
}

TEST(EveryKey, SaysWhatItIsInASentence) {
  for (const TableSchema& table : schema()) {
    EXPECT_TRUE(table.says.size() > 4 && table.says.back() == '.') << table.name;
  }
  each_key([](const std::string& path, const KeySchema& key) {
    EXPECT_GT(key.says.size(), 4u) << path;
    EXPECT_TRUE(key.says.back() == '.' || key.says.back() == '`' || key.says.ends_with("…"))
        << path << ": " << key.says;
    EXPECT_TRUE(key.says.front() == '`' || key.says.front() == '"' ||
                (key.says.front() >= 'A' && key.says.front() <= 'Z') ||
                (key.says.front() >= '0' && key.says.front() <= '9'))
        << path << ": " << key.says;
  });
}

/// A figure that stands there in full.
bool is_figure(const std::string& text, double* value) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), *value);
  return error == std::errc() && end == text.data() + text.size();
}

void expect_fits(const TypeSchema& type, const std::string& says, const std::string& path) {
  double value = 0;
  switch (type.type) {
    case ValueType::kNumber:
    case ValueType::kWhole:
    case ValueType::kShare:
    case ValueType::kLength:
    case ValueType::kAngle:
    case ValueType::kTemperature:
      ASSERT_TRUE(is_figure(says, &value)) << path << " = " << says;
      EXPECT_GE(value, type.low) << path;
      EXPECT_LE(value, type.high) << path;
      if (type.type == ValueType::kWhole) {
        EXPECT_EQ(value, static_cast<int>(value)) << path;
      }
      return;
    case ValueType::kYesNo:
      EXPECT_TRUE(says == "true" || says == "false") << path << " = " << says;
      return;
    case ValueType::kChoice:
    case ValueType::kWord: {
      ASSERT_TRUE(says.size() > 2 && says.front() == '"' && says.back() == '"') << path;
      const std::string word = says.substr(1, says.size() - 2);
      const bool among = std::find(type.words.begin(), type.words.end(), word) != type.words.end();
      EXPECT_TRUE(among || (type.type == ValueType::kWord && !type.catalogue.empty()))
          << path << " = " << says;
      return;
    }
    case ValueType::kSize:
      EXPECT_TRUE(says.front() == '[' && says.find(", ") != std::string::npos) << path;
      return;
    default:
      ADD_FAILURE() << path << " = " << says << ": a default of a type that has none";
  }
}

TEST(EveryDefault, FitsItsType) {
  std::size_t defaults = 0;
  each_key([&](const std::string& path, const KeySchema& key) {
    if (key.default_says.empty()) return;
    EXPECT_FALSE(key.needed) << path << " is needed and has a default";
    expect_fits(key.type, key.default_says, path);
    ++defaults;
  });
  EXPECT_GT(defaults, 20u);
}

TEST(Defaults, AreThoseThatGrowersExpect) {
  EXPECT_EQ(default_number("bed", "freeboard_m"), 0.03);
  EXPECT_EQ(default_number("bed", "slice_m"), 0.3);
  EXPECT_EQ(default_number("seat", "eye_m"), 1.2);
  EXPECT_EQ(default_number("garden", "plan_north_deg"), 0);
  EXPECT_EQ(default_text("wall", "status"), "existing");
  EXPECT_EQ(default_text("climate", "station"), "auto");
}

TEST(EveryReference, NamesTablesThatAre) {
  each_key([](const std::string& path, const KeySchema& key) {
    for (const std::string& table : key.type.tables) {
      const TableSchema* found = find_table(table);
      ASSERT_NE(found, nullptr) << path << " refers to " << table;
      EXPECT_NE(find_key(*found, "id"), nullptr) << path << " refers to " << table;
    }
    const bool choice = key.type.type == ValueType::kChoice;
    if (choice) {
      EXPECT_FALSE(key.type.words.empty()) << path;
    }
    const bool word = key.type.type == ValueType::kWord || key.type.type == ValueType::kFreeWord;
    EXPECT_EQ(word, !key.type.catalogue.empty()) << path;
  });
}

TEST(Rivals, AreKeysOfSomeThing) {
  std::set<std::string> keys;
  for (const TableSchema& table : schema()) {
    if (!table.thing) continue;
    for (const KeySchema& key : table.keys) keys.insert(key.name);
  }
  for (const std::string& key : keys) {
    for (const std::string& rival : rivals_of(key)) {
      EXPECT_EQ(keys.count(rival), 1u) << key << ", " << rival;
      EXPECT_NE(rival, key);
    }
  }
  EXPECT_TRUE(rivals_of("height_m").empty());
  EXPECT_FALSE(rivals_of("outline").empty());
}

TEST(AnUnknownName, IsNothing) {
  EXPECT_EQ(find_table("wal"), nullptr);
  EXPECT_EQ(find_table(""), nullptr);
  EXPECT_EQ(find_key(*find_table("wall"), "hight_m"), nullptr);
  EXPECT_NE(find_key(*find_table("prices"), "whatever material"), nullptr);
}

}  // namespace
}  // namespace spadework::garden
