// `why` beside `light --json` and `climate --json`: the same figures, with where they come from.
#include <cmath>
#include <functional>

#include "tests/command/command.h"

namespace spadework::testing {
namespace {

bool any_link(const json& trace, const std::function<bool(const json&)>& holds) {
  if (holds(trace)) return true;
  for (const json& input : trace["inputs"]) {
    if (any_link(input, holds)) return true;
  }
  return false;
}

/// Every figure of an object, by its pointer: numbers and nulls, and the class.
void each_figure(const json& object, const std::string& pointer,
                 const std::function<void(const std::string&, const json&)>& act) {
  static const std::vector<std::string> no_figures = {"id",   "kind", "month",  "at",
                                                      "date", "name", "origin", "source"};
  if (object.is_array()) {
    for (std::size_t i = 0; i < object.size(); ++i)
      each_figure(object[i], pointer + "/" + std::to_string(i), act);
  } else if (object.is_object()) {
    for (const auto& [key, value] : object.items()) {
      if (std::find(no_figures.begin(), no_figures.end(), key) == no_figures.end())
        each_figure(value, pointer + "/" + key, act);
    }
  } else {
    act(pointer, object);
  }
}

class Why : public Command {
 protected:
  json why(const std::string& garden, const std::string& pointer) {
    const Outcome outcome = run("why " + garden + " " + pointer + " --json");
    EXPECT_EQ(outcome.status, 0) << pointer << "\n" << outcome.err;
    return outcome.status == 0 ? json::parse(outcome.out) : json();
  }
  /// `why` gives the figure to its last digit, with a method and the line of the document.
  void expect_explained(const std::string& garden, const std::string& pointer, const json& figure) {
    const json trace = why(garden, pointer);
    ASSERT_FALSE(trace.is_null()) << pointer;
    EXPECT_EQ(trace["value"], figure) << pointer;
    EXPECT_FALSE(trace["name"].get<std::string>().empty()) << pointer;
    if (figure.is_null()) return;
    EXPECT_FALSE(trace["method"].get<std::string>().empty()) << pointer;
    const bool light = pointer.starts_with("/light");
    EXPECT_TRUE(any_link(trace, [&](const json& link) {
      return link["where"].get<std::string>().find(".toml:") != std::string::npos ||
             (!light && link["sources"].dump().find("dwd-climat") != std::string::npos);
    })) << pointer;
  }
};

const std::string kSmall = R"(format = 1
[garden]
title = "Small"
latitude_deg = 48.41
longitude_deg = -4.36
elevation_m = 60
time_zone = "Europe/Paris"
[ground]
spots = [[-5, -5, 0], [5, -5, 0.4], [5, 5, 1.2], [-5, 5, 0.8]]
horizon = [[0, 2], [90, 6], [180, 4], [270, 3]]
[[wall]]
id = "lane"
line = [[-3, -1.5], [3, -1.5]]
height_m = 2
kind = "brick"
[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 0]
height_m = 5
crown_width_m = 4
[[bed]]
id = "bed"
at = [-1.5, -0.6]
size = [3, 1.2]
boards = { height = "200 mm" }
)";

TEST_F(Why, ExplainsEveryFigureOfLightToItsLastDigit) {
  const std::string garden = write("small.toml", kSmall);
  const json light = json::parse(run("light " + garden + " --json").out);
  int figures = 0;
  each_figure(light["places"], "/light/places",
              [&](const std::string& pointer, const json& figure) {
                // Months alike in kind: three of them are enough.
                for (const char* month :
                     {"/2/", "/3/", "/4/", "/6/", "/7/", "/8/", "/9/", "/10/", "/11/"}) {
                  if (pointer.find(std::string("/months") + month) != std::string::npos) return;
                }
                expect_explained(garden, pointer, figure);
                ++figures;
              });
  EXPECT_GT(figures, 25);
}

TEST_F(Why, ExplainsPlacesAndTakersByTheirNames) {
  const std::string places = "/light/places/upper-mid";
  const json light = json::parse(run("light " + kKerAvel + " --places upper-mid --json").out);
  const json& bed = light["places"][0];
  expect_explained(kKerAvel, places + "/months/Jun/dli_mol_m2_d", bed["months"][5]["dli_mol_m2_d"]);
  expect_explained(kKerAvel, places + "/class", bed["class"]);
  ASSERT_GT(bed["takers"].size(), 4u);
  for (std::size_t i = 0; i < 3; ++i) {
    const json& taker = bed["takers"][i];
    for (const char* key : {"sun_h_per_year", "light_mol_m2_per_year"})
      expect_explained(kKerAvel, places + "/takers/" + taker["id"].get<std::string>() + "/" + key,
                       taker[key]);
  }
}

TEST_F(Why, ExplainsASpotAndADay) {
  const std::string garden = write("small.toml", kSmall);
  const json spot = json::parse(run("light " + garden + " --at 0.5,1.5 --json").out)["places"][0];
  const std::string at = "/light/at/0.5,1.5";
  for (const char* key : {"sun_h_per_day", "sunshine_h_per_day", "dli_mol_m2_d", "share_of_open"})
    expect_explained(garden, at + "/months/8/" + key, spot["months"][8][key]);
  for (const char* key : {"taken_twice_h", "lost_h", "class", "level_m"})
    expect_explained(garden, at + "/" + key, spot[key]);
  expect_explained(garden, at + "/takers/0/light_mol_m2_per_year",
                   spot["takers"][0]["light_mol_m2_per_year"]);

  const json day = json::parse(run("light " + garden + " --at 0.5,1.5 --day 06-21 --json").out);
  for (const char* key : {"sun_h", "dli_mol_m2_d"})
    expect_explained(garden, std::string("/light/day/06-21/at/0.5,1.5/") + key, day[key]);
  const json places = json::parse(run("light " + garden + " --day 06-21 --json").out)["places"];
  for (const char* key : {"sun_h", "morning_h", "midday_h", "afternoon_h", "dli_mol_m2_d"})
    expect_explained(garden, std::string("/light/day/06-21/places/bed/") + key, places[0][key]);
}

TEST_F(Why, ExplainsEveryFigureOfTheClimate) {
  const json climate = json::parse(run("climate " + kKerAvel + " --json").out);
  int figures = 0;
  for (const char* part : {"year", "months", "stations"}) {
    each_figure(climate[part], std::string("/climate/") + part,
                [&](const std::string& pointer, const json& figure) {
                  const bool skipped =
                      pointer.ends_with("/country") || pointer.ends_with("/years") ||
                      (figure.is_null() && pointer.find("plus_minus") != std::string::npos);
                  const bool one_month = pointer.find("/months/") == std::string::npos ||
                                         pointer.find("/months/6/") != std::string::npos;
                  const bool one_station = pointer.find("/stations/") == std::string::npos ||
                                           pointer.find("/stations/1/") != std::string::npos;
                  if (skipped || !one_month || !one_station) return;
                  expect_explained(kKerAvel, pointer, figure);
                  ++figures;
                });
  }
  EXPECT_GT(figures, 15);
}

TEST_F(Why, ExplainsWhereAWeatherFileWasMeasured) {
  fs::copy_file(SPADEWORK_SOURCE_DIR "/tests/golden/weather/denver/denver_tmy3_thinned.epw",
                folder_ / "denver.epw");
  const std::string garden =
      write("small.toml", kSmall + "[climate]\nweather_file = \"denver.epw\"\n");
  const json file = json::parse(run("climate " + garden + " --json").out)["weather_file"];
  for (const char* key : {"distance_km", "height_above_m"})
    expect_explained(garden, std::string("/climate/weather_file/") + key, file[key]);
  EXPECT_EQ(run("why " + kKerAvel + " /climate/weather_file/distance_km").status, 2);
}

TEST_F(Why, WhatDoesNotExistIsNull) {
  std::string polar = kSmall;
  polar.replace(polar.find("48.41"), 5, "78.00");
  const std::string garden = write("polar.toml", polar);
  const json light = json::parse(run("light " + garden + " --json").out)["places"][0];
  ASSERT_TRUE(light["months"][11]["share_of_open"].is_null());
  EXPECT_TRUE(why(garden, "/light/places/bed/months/11/share_of_open")["value"].is_null());
}

TEST_F(Why, TellsTheStationsWithDistanceHeightAndWeight) {
  const Outcome outcome = run("why " + kKerAvel + " /climate/months/Jun/global_mj_m2_d");
  ASSERT_EQ(outcome.status, 0);
  for (const char* part : {"Brest-Guipavas", "km away", "higher", "weighs", "[dwd-climat]",
                           "Ångström", "[fao56]", "Mean of"})
    EXPECT_NE(outcome.out.find(part), std::string::npos) << part;
}

TEST_F(Why, HintsAtWhatAWrongPointerCouldHaveNamed) {
  const auto hint = [&](const std::string& pointer) {
    const Outcome outcome = run("why " + kKerAvel + " " + pointer);
    EXPECT_EQ(outcome.status, 2) << pointer;
    return outcome.err;
  };
  const std::string bed = "/light/places/upper-mid";
  EXPECT_NE(hint(bed + "/takers/medla/sun_h_per_year").find("medlar"), std::string::npos);
  EXPECT_NE(hint(bed + "/takers").find("medlar"), std::string::npos);
  EXPECT_NE(hint(bed + "/takers/medlar/hours").find("light_mol_m2_per_year"), std::string::npos);
  EXPECT_NE(hint(bed + "/months/5/dli").find("dli_mol_m2_d"), std::string::npos);
  EXPECT_NE(hint(bed + "/shade").find("/class"), std::string::npos);
  EXPECT_NE(hint("/climate/months/5/tmax").find("tmax_c"), std::string::npos);
  EXPECT_NE(hint("/climate/stations/brest/distance_km").find("07110"), std::string::npos);
  EXPECT_NE(hint("/climate").find("global_mj_m2_d"), std::string::npos);
  EXPECT_NE(hint("/weather").find("/climate/months"), std::string::npos);
}

}  // namespace
}  // namespace spadework::testing
