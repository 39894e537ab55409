// What a page is told of a garden since a change that it knows: with it the page has what a garden
// of the same text says when it is asked for the first time, whatever was done meanwhile.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "base/random.h"
#include "server/server_testing.h"

namespace spadework::server {
namespace {

class Changes : public Serving {};

/// A list told by its changes, as the contract says that they are done.
template <class Piece, class IdOf>
void put_pieces(std::vector<Piece>& pieces, const std::vector<std::string>& gone,
                const std::vector<std::pair<std::string, Piece>>& put, const IdOf& id_of) {
  const auto at = [&](const std::string& id) {
    return std::find_if(pieces.begin(), pieces.end(),
                        [&](const Piece& piece) { return id_of(piece) == id; });
  };
  for (const std::string& id : gone) pieces.erase(at(id));
  for (const auto& [before, piece] : put) {
    if (const auto old = at(id_of(piece)); old != pieces.end()) pieces.erase(old);
    pieces.insert(before.empty() ? pieces.end() : at(before), piece);
  }
}

/// A sheet cut into the pieces of one layer, and what stands around them.
struct Layer {
  std::string before, after;
  std::vector<std::string> pieces;
};
std::string id_of_piece(const std::string& piece) {
  const std::size_t begin = piece.find("id=\"") + 4;
  return piece.substr(begin, piece.find('"', begin) - begin);
}
Layer layer_of(const std::string& svg, const std::string& id) {
  Layer out;
  std::size_t at = svg.find("<g id=\"" + id + "\" role");
  at = svg.find("</title>\n", at) + 9;
  out.before = svg.substr(0, at);
  int depth = 0;
  for (std::size_t begin = at; depth >= 0;) {
    const std::size_t line_end = svg.find('\n', at) + 1;
    const std::string line = svg.substr(at, line_end - at);
    if (line.starts_with("<g")) ++depth;
    if (line.starts_with("</g")) --depth;
    if (depth < 0) break;
    at = line_end;
    if (depth > 0) continue;
    out.pieces.push_back(svg.substr(begin, at - begin));
    begin = at;
  }
  out.after = svg.substr(at);
  return out;
}
std::string whole(const Layer& layer) {
  std::string out = layer.before;
  for (const std::string& piece : layer.pieces) out += piece;
  return out + layer.after;
}

std::string with_changes(std::string svg, const json& told) {
  for (const json& layer : told["layers"]) {
    const std::string id = layer["id"];
    const std::size_t begin = svg.find("<g id=\"" + id + "\"");
    std::size_t end = svg.size();
    for (const char* next : {"in-ground", "levels", "boundary", "things", "names"}) {
      const std::size_t there = svg.find(std::string("\n<g id=\"") + next + "\" role", begin);
      if (there != std::string::npos) end = std::min(end, there + 1);
    }
    svg = svg.substr(0, begin) + layer["svg"].get<std::string>() + svg.substr(end);
  }
  for (const char* id : {"things", "names"}) {
    Layer layer = layer_of(svg, id);
    std::vector<std::pair<std::string, std::string>> put;
    for (const json& piece : told[id]["put"]) put.emplace_back(piece["before"], piece["svg"]);
    put_pieces(layer.pieces, told[id]["gone"], put, id_of_piece);
    svg = whole(layer);
  }
  return svg;
}

/// Something that a grower may do, drawn by chance; some of it is refused.
json drawn(Random& random, const std::vector<std::string>& ids) {
  const auto below = [&](int n) { return random.below(n); };
  const std::string scheme = below(3) == 0 ? "proposed" : "found";
  const std::string thing = ids[static_cast<std::size_t>(below(static_cast<int>(ids.size())))];
  const double x = 1 + below(7), y = 1 + below(6);
  switch (below(11)) {
    case 0:
      return {{"scheme", scheme},
              {"add", "tree"},
              {"set", {{"kind", "plum"}, {"at", {x, y}}, {"height_m", 3}, {"crown_width_m", 2}}}};
    case 1:
      return {{"scheme", scheme}, {"add", "bed"}, {"set", {{"at", {x, y}}, {"size", {1.2, 2}}}}};
    case 2:
      return {
          {"scheme", scheme},
          {"add", "path"},
          {"set", {{"line", {{x, y}, {x + 1, y + 0.5}}}, {"width_m", 0.6}, {"surface", "gravel"}}}};
    case 9:
      return {{"scheme", scheme},
              {"add", "service"},
              {"set", {{"line", {{x, y}, {x + 2, y}}}, {"kind", "water"}}}};
    case 10:
      return {{"scheme", scheme}, {"add", "view"}, {"set", {{"from", {thing}}, {"to", {x, y}}}}};
    case 3:
      return {{"scheme", scheme}, {"thing", thing}, {"take_away", true}};
    case 4:
      return {{"scheme", scheme}, {"thing", thing}, {"put_back", true}};
    case 5:
      return {{"scheme", scheme}, {"thing", thing}, {"set", {{"height_m", 1 + below(5)}}}};
    case 6:
      return {{"scheme", scheme}, {"thing", thing}, {"set", {{"crown_width_m", 1 + below(4)}}}};
    default:
      return {{"scheme", scheme},
              {"thing", thing},
              {"move_m", {below(5) * 0.25 - 0.5, below(3) * 0.5}}};
  }
}

TEST_F(Changes, MakeWhatIsKnownWhatTheGardenIs) {
  const std::string at = garden();
  const std::vector<std::string> schemes = {"found", "proposed"};
  const auto sheet = [](const std::string& scheme) {
    return "/sheet?scheme=" + scheme + "&mm_per_m=12.5";
  };
  std::map<std::string, json> states;
  std::map<std::string, std::string> sheets;
  for (const std::string& scheme : schemes) {
    states[scheme] = state(at, scheme);
    sheets[scheme] = get(at + sheet(scheme))->body;
  }
  Random random(5);
  int told_by_changes = 0, drawn_by_changes = 0, done = 0;
  for (int round = 0; round < 150; ++round) {
    SCOPED_TRACE("round " + std::to_string(round));
    std::vector<std::string> ids;
    for (const json& one : states["proposed"]["things"]) ids.push_back(one["id"]);
    if (ids.empty()) ids.emplace_back("medlar");
    const json change = state(at, "found")["head"]["change"];
    json what = random.below(4) == 0 ? json{{"step", random.below(3) == 0 ? "redo" : "undo"}}
                                     : drawn(random, ids);
    what["command"] = "c" + std::to_string(round);
    what["change"] = change;
    const auto answer = post(at + (what.contains("step") ? "/steps" : "/edits"), what);
    if (answer->status == 200) ++done;
    if (random.below(3) == 0) continue;  // some changes are never asked for
    const std::string text = get(at + "/document")->body;
    const auto fresh = post("/api/gardens", {{"document", text}});
    ASSERT_EQ(fresh->status, 201) << fresh->body << text;
    const std::string anew = "/api/gardens/" + json::parse(fresh->body)["id"].get<std::string>();
    for (const std::string& scheme : schemes) {
      json& known = states[scheme];
      const std::string since = "&since=" + known["head"]["change"].dump();
      json told = json::parse(get(at + "?scheme=" + scheme + since)->body);
      json wanted = state(anew, scheme);
      if (told.contains("since")) {
        ++told_by_changes;
        EXPECT_EQ(told["since"], known["head"]["change"]);
        std::vector<json> things = known["things"];
        std::vector<std::pair<std::string, json>> put;
        for (std::size_t i = 0; i < told["things"].size(); ++i)
          put.emplace_back(told["before"][i], told["things"][i]);
        put_pieces(things, told["gone"], put,
                   [](const json& one) -> std::string { return one["id"]; });
        told["things"] = things;
        for (const char* key : {"since", "before", "gone"}) told.erase(key);
      }
      known = told;
      told.erase("head");
      wanted.erase("head");
      ASSERT_EQ(told, wanted);

      const json changes =
          json::parse(get(at + "/sheet_changes?scheme=" + scheme + "&mm_per_m=12.5" + since)->body);
      const std::string drawing = get(anew + sheet(scheme))->body;
      if (changes["whole"] == true) {
        sheets[scheme] = get(at + sheet(scheme))->body;
      } else {
        ++drawn_by_changes;
        sheets[scheme] = with_changes(sheets[scheme], changes);
      }
      ASSERT_EQ(sheets[scheme], drawing) << text;
    }
    ASSERT_EQ(post("/api/gardens", {{"take_off", anew.substr(13)}})->status, 201);
  }
  EXPECT_GT(done, 60);
  EXPECT_GT(told_by_changes, 100);
  EXPECT_GT(drawn_by_changes, 80);
}

TEST_F(Changes, AreToldOfWhatIsKnownAndElseAllIsTold) {
  const std::string at = garden();
  const json change = state(at)["head"]["change"];
  EXPECT_FALSE(json::parse(get(at + "?since=" + change.dump())->body).contains("since"));
  EXPECT_FALSE(json::parse(get(at + "?since=77777")->body).contains("since"));
  EXPECT_EQ(json::parse(get(at + "/sheet_changes?since=77777")->body)["whole"], true);
  get(at + "/sheet?mm_per_m=10");
  ASSERT_EQ(edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"move_m", {0.5, 0}}})->status,
            200);
  const json told = json::parse(get(at + "?since=" + change.dump())->body);
  ASSERT_EQ(told["things"].size(), 1u);
  EXPECT_EQ(told["things"][0]["id"], "medlar");
  const std::string since = "&since=" + change.dump();
  const json drawn = json::parse(get(at + "/sheet_changes?mm_per_m=10" + since)->body);
  EXPECT_EQ(drawn["whole"], false);
  ASSERT_EQ(drawn["things"]["put"].size(), 1u);
  EXPECT_EQ(drawn["things"]["put"][0]["id"], "medlar");
  // Of another scale nothing is known.
  EXPECT_EQ(json::parse(get(at + "/sheet_changes?mm_per_m=11" + since)->body)["whole"], true);
}

TEST_F(Changes, OfAFrameThatStaysAreToldAlsoWhereTheGardenGrowsBeyondIt) {
  const std::string at = garden();
  const auto drawn = [&] {
    return get(at + "/sheet?scheme=found&mm_per_m=10&frame=-1,-1,9,8")->body;
  };
  const std::string before = drawn();
  const json change = state(at)["head"]["change"];
  ASSERT_EQ(edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"move_m", {40, 30}}})->status,
            200);
  const json changes = json::parse(
      get(at + "/sheet_changes?scheme=found&mm_per_m=10&frame=-1,-1,9,8&since=" + change.dump())
          ->body);
  ASSERT_EQ(changes["whole"], false);
  EXPECT_EQ(with_changes(before, changes), drawn());
  // Without a frame the paper grows with the garden.
  EXPECT_NE(get(at + "/sheet?scheme=found&mm_per_m=10")->body.substr(0, 400),
            drawn().substr(0, 400));
  for (const char* bad : {"1,2,3", "1,2,3,4,5", "a,0,1,1", "0,0,0,1", "3,0,1,1", "0,0,1e9,1",
                          "0,0,nan,1", "0,0,1,1,"}) {
    const auto refused = get(at + "/sheet?frame=" + bad);
    EXPECT_EQ(refused->status, 400) << bad << refused->body;
  }
}

}  // namespace
}  // namespace spadework::server
