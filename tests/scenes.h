// Gardens for tests: documents read with the facts inside, as the command reads them.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "document/reader.h"
#include "embedded/embedded.h"
#include "facts/facts.h"
#include "study/study.h"

namespace spadework::testing {

inline const facts::Catalogue& catalogue() {
  static const Result<facts::Catalogue> read = facts::read_catalogue(
      {embedded_file("sources.toml"), embedded_file("trees.toml"), embedded_file("barriers.toml"),
       embedded_file("supports.toml"), embedded_file("covers.toml"), embedded_file("crops.toml"),
       embedded_file("vocabulary.toml")});
  if (!read) ADD_FAILURE() << read.error().where << ": " << read.error().message;
  return *read;
}

inline document::KnownWords known_words() {
  document::KnownWords words;
  words.knows = [](std::string_view list, std::string_view word) {
    return catalogue().knows(list, word);
  };
  words.words_of = [](std::string_view list) { return catalogue().names_of(list); };
  return words;
}

inline garden::Draft draft_of(std::string_view text) {
  document::ReadDocument read = document::read_document(text, "test.toml", known_words());
  for (const Error& problem : read.problems)
    ADD_FAILURE() << problem.where << ": " << problem.message << " " << problem.hint;
  return std::move(read.draft);
}

inline const climate::Stations& stations() {
  static const Result<climate::Stations> read =
      climate::read_stations(embedded_file("stations.csv"));
  if (!read) ADD_FAILURE() << read.error().where << ": " << read.error().message;
  return *read;
}

inline study::Study study_of(std::string_view text, int threads = 1) {
  return study::Study(draft_of(text), {catalogue(), stations(), "test"}, threads);
}

inline garden::Garden garden_of(std::string_view text, const std::string& scheme = "proposed") {
  auto garden = garden::resolve(draft_of(text), scheme);
  EXPECT_TRUE(garden.has_value());
  return std::move(*garden);
}

/// The head of a document at a place by the sea, the page's up to the north, in its zone.
inline std::string head(double latitude, double longitude, std::string_view zone,
                        double plan_north = 0, double elevation_m = 0) {
  return "format = 1\n[garden]\ntitle = \"Test\"\nlatitude_deg = " + std::to_string(latitude) +
         "\nlongitude_deg = " + std::to_string(longitude) + "\ntime_zone = \"" + std::string(zone) +
         "\"\nplan_north_deg = " + std::to_string(plan_north) +
         "\nelevation_m = " + std::to_string(elevation_m) + "\n";
}

/// A year of the same day over and over.
inline climate::Weather weather_of(double latitude, double tmax, double tmin) {
  climate::Weather weather;
  weather.name = "mine.csv";
  weather.latitude = degrees(latitude);
  weather.longitude = degrees(0);
  for (int day = 1; day <= 365; ++day) {
    climate::WeatherDay one;
    one.date = date_of_day(2025, day);
    one.tmax = celsius(tmax);
    one.tmin = celsius(tmin);
    weather.days.push_back(one);
  }
  return weather;
}

}  // namespace spadework::testing
