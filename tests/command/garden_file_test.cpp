// Every verb takes a garden file as it takes the document inside, and leaves no trace of reading.
#include <sys/stat.h>

#include <map>

#include "store/store.h"
#include "tests/command/command.h"

namespace spadework::testing {
namespace {

constexpr const char* kProgram = "Spadework 0.1.0";
const fs::path kDays = SPADEWORK_SOURCE_DIR
    "/tests/golden/weather/dublin/"
    "dublin_1991_2020_jan_feb_jul.csv";

const std::string kDublin = R"(format = 1
[garden]
title = "Test"
latitude_deg = 53.43
longitude_deg = -6.25
elevation_m = 70
time_zone = "Europe/Dublin"
[climate]
weather_file = "days.csv"
[[wall]]
id = "wall"
line = [[0, -1], [2, -1]]
height_m = 2
kind = "stone"
[[bed]]
id = "bed"
at = [0, 0]
size = [2, 1]
)";

class GardenFile : public Command {
 protected:
  /// `plot.garden` with a document, and that document beside it.
  store::GardenFile kept(const std::string& text) {
    document = write("plot.toml", text);
    garden = (folder_ / "plot.garden").string();
    fs::remove(garden);
    auto file = store::GardenFile::create(garden, "# an earlier state\n", "Plot", kProgram);
    EXPECT_TRUE(file.has_value()) << file.error().message;
    EXPECT_TRUE(file->write({"w", file->head()->change}, text, "Plot", "begun").has_value());
    return std::move(*file);
  }
  /// Of everything in the folder but what the test itself writes there.
  std::map<std::string, std::string> files() {
    std::map<std::string, std::string> out;
    for (const auto& entry : fs::directory_iterator(folder_)) {
      if (entry.path().filename() != "stderr") out[entry.path().filename()] = slurp(entry.path());
    }
    return out;
  }
  void expect_same(const std::string& before, const std::string& after) {
    const std::string verb = before + " GARDEN " + after;
    const Outcome of_document = run(before + " " + document + " " + after);
    const Outcome of_garden = run(before + " " + garden + " " + after);
    EXPECT_EQ(of_garden.status, of_document.status) << verb << of_garden.err;
    EXPECT_EQ(of_garden.out, of_document.out) << verb;
    EXPECT_EQ(of_garden.err, of_document.err) << verb;
    EXPECT_FALSE(of_garden.out.empty() && of_garden.err.empty()) << verb;
  }
  std::string document, garden;
};

const std::vector<std::pair<const char*, const char*>> kVerbs = {
    {"check", "--json"},
    {"findings", "--json"},
    {"climate", "--json"},
    {"climate", "--json --scheme found"},
    {"light", "--json"},
    {"light", "--json --at 0.5,0.5 --day 06-21"},
    {"why", "/light/places/bed/months/5/dli_mol_m2_d --json"},
    {"why", "/climate/months/5/tmax_c --json"}};

TEST_F(GardenFile, IsAnsweredByEveryVerbAsItsDocumentIs) {
  std::string text = slurp(kKerAvel);
  { (void)kept(text); }
  for (const char* verb : {"check", "findings", "climate", "light"}) expect_same(verb, "--json");
  expect_same("why", "/light/places/slope-west/months/5/sun_h_per_day --json");
  expect_same("findings", "");
  expect_same("climate", "--scheme found");
  expect_same("light", "--scheme nowhere");
}

TEST_F(GardenFile, IsAnsweredWithTheWeatherFileInside) {
  fs::copy_file(kDays, folder_ / "days.csv");
  {
    auto file = kept(kDublin);
    ASSERT_TRUE(file.attach("days.csv", slurp(kDays)).has_value());
  }
  for (const auto& [verb, options] : kVerbs) expect_same(verb, options);
  const auto picture = [&](const std::string& of, const std::string& name) {
    const std::string file = (folder_ / name).string();
    EXPECT_EQ(run("light " + of + (name.ends_with("svg") ? " --svg " : " --grid ") + file).status,
              0);
    return slurp(file);
  };
  EXPECT_EQ(picture(garden, "garden.svg"), picture(document, "document.svg"));
  EXPECT_EQ(picture(garden, "garden.csv"), picture(document, "document.csv"));
  fs::remove(folder_ / "days.csv");  // not that beside it
  const json all = json::parse(run("climate --json " + garden).out);
  EXPECT_EQ(all["weather_file"]["name"], "days.csv");
  EXPECT_EQ(all["months"][6]["origin"]["tmax_c"], "weather_file");
}

// The app opens such a garden too: the stations stand in, and it is said.
TEST_F(GardenFile, OpensWithoutItsWeatherFileAndSaysSo) {
  { (void)kept(kDublin); }
  EXPECT_EQ(run("climate " + document).status, 3);
  const json all = json::parse(run("climate --json " + garden).out);
  EXPECT_TRUE(all["weather_file"].is_null());
  EXPECT_EQ(all["months"][6]["origin"]["tmax_c"], "stations");
  EXPECT_NE(all["notes"].dump().find("days.csv"), std::string::npos);
  const json findings = json::parse(run("findings --json " + garden).out)["findings"];
  ASSERT_EQ(findings.size(), 1u) << findings;
  EXPECT_EQ(findings[0]["says"],
            "The weather file days.csv is not with this garden: the weather stations around stand "
            "in for it.");
  EXPECT_EQ(run("check " + garden).status, 0);
}

TEST_F(GardenFile, TellsWhatIsWrongWithTheWeatherFileInside) {
  {
    auto file = kept(kDublin);
    ASSERT_TRUE(file.attach("days.csv", "date,tmax_c\n2001-01-01,5\n2001-01-02,hot\n").has_value());
  }
  const Outcome outcome = run("findings --json " + garden);
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  const std::string says = json::parse(outcome.out)["findings"][0]["says"];
  EXPECT_NE(says.find("days.csv cannot be read (line 3: "), std::string::npos) << says;
}

TEST_F(GardenFile, TellsItsProblemsByTheLinesOfItsDocument) {
  { (void)kept("format = 1\n[garden]\ntitle = \"Test\"\n[[bed]]\nid = \"bed\"\nsiz = [2, 1]\n"); }
  for (const char* verb : {"light", "check", "check --json", "findings", "climate"})
    expect_same(verb, "");
  EXPECT_NE(run("check " + garden).err.find("plot.toml:6:1"), std::string::npos);
  { (void)kept("format = 1\n[garden\n"); }
  expect_same("check", "--json");
}

TEST_F(GardenFile, IsReadAsItStandsWhileTheAppHasItOpen) {
  const std::string moved = "# moved\n" + kDublin.substr(0, kDublin.find("[climate]")) +
                            kDublin.substr(kDublin.find("[[wall]]"));
  auto app = kept(kDublin);
  ASSERT_TRUE(app.write({"m", app.head()->change}, moved, "Plot", "moved").has_value());
  write("plot.toml", moved);
  const auto before = files();
  ASSERT_EQ(before.count("plot.garden-wal"), 1u);
  for (const char* verb : {"check", "light", "findings"}) expect_same(verb, "--json");
  ASSERT_TRUE(app.undo({"u", app.head()->change}).has_value());
  ASSERT_TRUE(app.undo({"u2", app.head()->change}).has_value());
  EXPECT_EQ(run("check " + garden).status, 1);  // the earlier state says nothing of a garden
  EXPECT_EQ(files().size(), before.size());
  EXPECT_EQ(files().at("plot.garden"), before.at("plot.garden"));
}

TEST_F(GardenFile, IsLeftAsItIs) {
  { (void)kept(kDublin); }
  const auto before = files();
  for (const char* verb : {"check", "light", "climate", "findings"})
    EXPECT_EQ(run(std::string(verb) + " " + garden).status, 0) << verb;
  EXPECT_EQ(files(), before);
  ASSERT_EQ(::chmod(garden.c_str(), 0444), 0);
  EXPECT_EQ(run("light " + garden).status, 0);
  EXPECT_EQ(files(), before);
}

TEST_F(GardenFile, IsRefusedInWordsWhenItIsNone) {
  { (void)kept(kDublin); }
  const std::string whole = slurp(garden);
  const auto expect_refused = [&](const std::string& bytes, const std::string& words) {
    for (const char* name : {"other.garden", "other.sqlite"}) {
      const std::string file = write(name, bytes);
      for (const char* verb :
           {"check", "check --json", "light", "climate", "findings", "why --json"}) {
        const Outcome outcome =
            run(std::string(verb) + " " + file + (verb[0] == 'w' ? " /climate" : ""));
        EXPECT_EQ(outcome.status, 3) << verb << words;
        EXPECT_NE(outcome.err.find(words), std::string::npos) << verb << outcome.err;
        EXPECT_EQ(outcome.out, "");
      }
      EXPECT_EQ(slurp(file), bytes);
    }
  };
  std::string newer = whole;
  newer[63] = 99;  // the database's user_version, whose last byte it is
  expect_refused(newer, "was last saved by Spadework 0.1.0");
  std::string other = whole;
  other[68] = 0;  // its application_id
  expect_refused(other, "is not a garden of Spadework");
  expect_refused(whole.substr(0, whole.size() / 3), "damaged");
  EXPECT_EQ(run("light " + write("text.garden", kDublin)).status, 3);
  EXPECT_EQ(run("light " + write("empty.garden", "")).status, 3);
  EXPECT_EQ(run("light " + (folder_ / "none.garden").string()).status, 3);
}

// More than a document may be long.
TEST_F(GardenFile, MayBeLongerThanADocument) {
  std::string noise;
  for (unsigned i = 0, x = 1; i < 6'000'000; ++i)
    noise += static_cast<char>((x = x * 69069 + 1) >> 24);
  {
    auto file = kept(kDublin);
    ASSERT_TRUE(file.attach("noise", noise).has_value());
  }
  EXPECT_GT(fs::file_size(garden), 5'000'000u);
  EXPECT_EQ(run("check " + garden).status, 0);
}

}  // namespace
}  // namespace spadework::testing
