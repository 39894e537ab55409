// Front door of the study room: one garden's results, each computed once, on demand, and again when
// its inputs change. The only room that knows how results depend on each other; the command and the
// server ask it and never call stages themselves.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "climate/climate.h"
#include "garden/findings.h"
#include "garden/garden.h"
#include "geometry/surface.h"
#include "ground/ground.h"
#include "light/light.h"
#include "study/results.h"

namespace spadework::study {

/// One scheme with its ground and its bodies standing on it.
struct Stand {
  garden::Garden garden;
  geometry::Surface surface;
  std::vector<ground::BedLevel> levels;
  std::vector<double> bed_levels_m;
  std::vector<garden::Body> bodies;
  std::string key;          // of all that light depends on
  std::string climate_key;  // of what the climate does
};

/// The year's sun and light of every place of a scheme.
struct PlacesYear {
  Shared<climate::PlaceClimate> climate;
  light::SunYear sun;
  std::vector<light::PlaceSun> places;

  [[nodiscard]] const light::PlaceSun* find(std::string_view id) const;
};

struct SpotYear {
  light::Place place;
  light::YearSun months;
  light::SunYear sun;
  light::Takers takers;
};
struct SpotDay : light::SpotDay {
  light::PlaceSun sun;  // its month holds that day, from shadows every four minutes
  double dli_mol_m2_d = 0;
};

/// What takes the light of one place.
struct PlaceTakers {
  std::string place;
  light::Takers takers;
};
struct TakersYear {
  std::vector<PlaceTakers> places;
  /// Every thing, by the sun that it alone takes from all places together, most first: whose ink is
  /// whose on every drawing of the scheme. The skyline, which has a grey of its own, is left out.
  /// In a proposal those that have an ink as found go before the others, so that an ink stays with
  /// its thing; one of them may be gone.
  std::vector<std::string> ranked;
  std::set<std::string> taking;  // of them, those that take any

  /// Those that have an ink of their own.
  [[nodiscard]] std::vector<std::string> inked() const;

  [[nodiscard]] const light::Takers* find(std::string_view id) const;
};

/// How much of each place's sun rests on guessed figures: hours a day, by month, that the guessed
/// things take from it; all of it where north, the ground's fall or the skyline is guessed, or the
/// place itself.
struct OnGuesses {
  std::map<std::string, std::array<double, 12>>
      hours;  // by place; none: a place of measured things

  /// A quarter of an hour a day or more in the mean of the months: a guess that is off by a fifth
  /// then changes the last digit that is written.
  [[nodiscard]] bool rests(const std::string& place, const std::vector<int>& months) const;
};

/// What is known beside the document. The catalogue and the stations must outlive the study.
struct Known {
  const facts::Catalogue& catalogue;
  const climate::Stations& stations;
  std::string version;  // stands for the content of both in the keys of results
};

/// Which of the year's suns are looked at.
struct SunsAsked {
  std::vector<int> months = {};        // 0 to 11, the others have no hours; none: all
  std::optional<LocalDate> date = {};  // those of that day alone
  int every = 1;                       // of a month's, each so manieth; 1: exact
};

/// Any number of threads may ask it at once, while none gives it another draft or weather: for that
/// take a copy, which shares what was computed.
class Study {
 public:
  /// In: a draft read without problems.
  Study(garden::Draft draft, const Known& known, int threads);

  /// The weather file that the document names, and what makes one doubt that it belongs to the
  /// garden: they become findings. Nothing: there is none; where the document names one all the
  /// same, a finding says that the stations stand in, and for what reason if there is a doubt.
  void set_weather(std::optional<climate::Weather> weather, std::vector<std::string> doubts = {});
  /// Takes the document as it is now; results whose inputs are the same are kept.
  void replace(garden::Draft draft);
  [[nodiscard]] const garden::Draft& draft() const { return draft_; }
  [[nodiscard]] const facts::Catalogue& catalogue() const { return known_.catalogue; }
  [[nodiscard]] const climate::Stations& stations() const { return known_.stations; }

  /// Errors of all: kWrongUse for a scheme that is not there; those of the stage itself.
  [[nodiscard]] Result<Shared<Stand>> stand(const std::string& scheme);
  /// The weather of the garden, month by month.
  [[nodiscard]] Result<Shared<climate::PlaceClimate>> climate(const std::string& scheme);
  /// The sun and the light of the open, of the year or of one date.
  [[nodiscard]] Result<light::SunYear> open_sun(const std::string& scheme,
                                                std::optional<LocalDate> date = {});
  /// `only`: ids of the places wanted; empty: all. Ids that are no places are passed over.
  [[nodiscard]] Result<Shared<PlacesYear>> places_year(const std::string& scheme,
                                                       Progress* progress = nullptr,
                                                       const std::vector<std::string>& only = {});
  /// The ids of every place of a scheme, in the garden's order; then those of the faces that are
  /// places only when they are asked for.
  [[nodiscard]] Result<std::vector<std::string>> place_ids(const std::string& scheme);
  /// Which places' sun rests on guessed figures.
  [[nodiscard]] Result<Shared<OnGuesses>> on_guesses(const std::string& scheme);
  /// The sun of every place on one date: in the month of that date.
  [[nodiscard]] Result<Shared<PlacesYear>> places_day(const std::string& scheme, LocalDate date,
                                                      const std::vector<std::string>& only = {});
  [[nodiscard]] Result<Shared<light::Field>> field(const std::string& scheme, double cell_m,
                                                   Progress* progress = nullptr);
  /// The same hours without the light that they bring: quicker.
  [[nodiscard]] Result<Shared<light::Field>> field_hours(const std::string& scheme, double cell_m,
                                                         const SunsAsked& asked = {},
                                                         Progress* progress = nullptr);
  [[nodiscard]] Result<Shared<light::Field>> field_of_day(const std::string& scheme, double cell_m,
                                                          LocalDate date);
  /// Where the sun shines at an instant by the clock: 1 in the month of the date, else 0.
  [[nodiscard]] Result<light::Field> field_of_moment(const std::string& scheme, double cell_m,
                                                     LocalDate date, double clock_h);
  /// A scheme of another draft of this garden, standing: for what is tried.
  [[nodiscard]] Result<Stand> stand_of(const garden::Draft& draft, const std::string& scheme) const;
  /// Quick moves: the field's sun hours (not its DLI) as the scheme has them standing like this,
  /// where one thing is moved, changed, added or gone. While that thing stays the same one, each
  /// further stand is quick.
  /// Out:    the months asked, as `options` say (see light/field.h); exact where the thing is part
  ///         of what is measured, as a bed is.
  [[nodiscard]] Result<light::Field> field_moved(const std::string& scheme, double cell_m,
                                                 const Stand& moved, const std::string& thing,
                                                 const light::FieldMovesOptions& options);
  /// The field's sun hours of a day, or of a moment of it as field_of_moment() has them, as the
  /// scheme has them standing like this.
  [[nodiscard]] Result<light::Field> field_with(const std::string& scheme, double cell_m,
                                                const Stand& with, LocalDate date,
                                                std::optional<double> clock_h);
  [[nodiscard]] Result<Shared<light::SunPrint>> print(const std::string& scheme,
                                                      const std::string& place);
  /// What takes the light of the places; `only` as above. `months` (0 to 11): what is taken in them
  /// alone, hours without light; none: the year.
  [[nodiscard]] Result<Shared<TakersYear>> takers(const std::string& scheme,
                                                  const std::vector<std::string>& only = {},
                                                  Progress* progress = nullptr,
                                                  const std::vector<int>& months = {});
  [[nodiscard]] Result<SpotYear> spot_year(const std::string& scheme, geometry::Vec2 at,
                                           Length above);
  [[nodiscard]] Result<SpotDay> spot_day(const std::string& scheme, geometry::Vec2 at, Length above,
                                         LocalDate date);
  /// All judgements, worst first; their sentences in the units asked.
  [[nodiscard]] Result<std::vector<garden::Finding>> findings(const std::string& scheme,
                                                              Units units = Units::kMetric);
  /// The chain behind a figure, by its JSON pointer: `/light/places/ID/months/5/sun_h_per_day`,
  /// `/light/places/ID/takers/THING/sun_h_per_year`, `/light/places/ID/level_m`,
  /// `/light/at/X,Y/months/5/midday_h`, `/light/day/06-21/places/ID/sun_h`,
  /// `/climate/months/5/global_mj_m2_d`, …; a place, a thing or a station may be told by its id or
  /// its number, a month by its number from 0 or its name. Errors: kWrongUse for a pointer that
  /// points at nothing, with what would.
  [[nodiscard]] Result<Trace> why(const std::string& scheme, const std::string& pointer);

  /// How many results have been computed since the study began: for tests.
  [[nodiscard]] int computed() const { return results_->computed(); }

 private:
  template <class T>
  Result<Shared<T>> once(const std::string& key, const std::function<Result<T>()>& compute) {
    return results_->once<T>(key, compute);
  }

  /// The places of a scheme, those asked for.
  [[nodiscard]] std::vector<light::Place> places_of(const Stand& stand,
                                                    const std::vector<std::string>& only) const;

  std::shared_ptr<Results> results_ = std::make_shared<Results>();
  garden::Draft draft_;
  Known known_;
  Shared<climate::Weather> weather_;
  std::vector<std::string> doubts_;  // about the weather file
  std::string weather_key_;
  long stands_ = results_->next_number();  // another for other drafts and weather
  int threads_;
};

/// Whether light depends on the entries of a table: not on plans for plants, water and works.
[[nodiscard]] bool matters_for_light(const std::string& table);

/// Findings on the weather: no station near, a weather file that may not belong to the garden,
/// nights warmer than days.
/// In: the doubts as the study was given them.
[[nodiscard]] std::vector<garden::Finding> climate_findings(const climate::PlaceClimate& climate,
                                                            const std::vector<std::string>& doubts,
                                                            Units units);

/// A finding if the garden's clocks stand more than 3 h from the sun's, as they do when the sign of
/// the longitude is lost. UTC is left alone. Source: [closed-form] 15° an hour.
[[nodiscard]] std::vector<garden::Finding> clock_findings(const garden::Site& site);

/// A finding if a point lies off the surveyed ground (the hull of the spot levels), by more than
/// half a metre; nothing without spot levels.
[[nodiscard]] std::vector<garden::Finding> off_survey(const garden::Garden& garden,
                                                      const std::string& id,
                                                      const std::vector<geometry::Vec2>& points,
                                                      Units units);

}  // namespace spadework::study
