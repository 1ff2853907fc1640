//! A small history made by hand: what is told of it, word by word.

use crate::repository::Repository;

const FLIES: &str = "fly bracken \"bracken nymph\"\n  hook #14\n  bead 2.8 mm tungsten\n\nfly slate \"slate spider\"\n  hook #16\n";
const WATERS: &str = "water tail \"tail of the long pool\"\n  depth 3 ft\n\nwater weir\n  depth 4 ft\n";

fn rig(name: &str, upper: u32, point: &str) -> String {
    format!(
        "rig {name} \"two on a card\"\n  water tail\n  butt 9 ft of 0.25 mm nylon\n  tippet {upper} in of 6X fluoro as upper\n  \
         dropper 8 in with slate\n  tippet 20 in of 6X fluoro\n  point {point}\n"
    )
}

fn file(rigs: &str) -> String {
    format!("use \"flies.rig\"\nuse \"waters.rig\"\n\n{rigs}")
}

/// Written down, made longer, renamed with its file, taken out and put back; fished on four days.
fn history() -> Repository {
    let repository = Repository::new();
    let shared = [("flies.rig", FLIES), ("waters.rig", WATERS)];
    repository.commit("2026-04-01", "shared blocks", &shared);
    repository.commit(
        "2026-04-02",
        "a rig",
        &[("card.rig", &file(&rig("card", 32, "bracken")))],
    );
    repository.commit(
        "2026-05-10",
        "longer",
        &[("card.rig", &file(&rig("card", 44, "bracken")))],
    );
    repository.git(&["mv", "card.rig", "year.rig"]);
    repository.commit(
        "2026-06-01",
        "a better name",
        &[("year.rig", &file(&rig("evening", 44, "bracken")))],
    );
    repository.commit("2026-06-10", "out", &[("year.rig", &file(""))]);
    repository.commit(
        "2026-06-20",
        "and in again",
        &[("year.rig", &file(&rig("evening", 44, "slate")))],
    );
    let outings = "use \"year.rig\"\nuse \"waters.rig\"\nuse \"flies.rig\"\n\n\
        outing too-soon\n  day 2026-03-30\n  rig evening\n  caught 1 on dropper\n\n\
        outing april\n  day 2026-04-05\n  rig evening\n  caught 2 on point\n\n\
        outing june\n  day 2026-06-02\n  rig evening\n  water weir\n  change point to slate\n  caught 3 on point\n  caught 0 on dropper\n\n\
        outing late\n  day 2026-07-01\n  rig evening\n  caught 4 on point\n  note \"dusk\"\n";
    repository.commit("2026-07-02", "days", &[("outings.rig", outings)]);
    repository
}

#[test]
fn the_story_is_told_in_words() {
    let repository = history();
    let checked = repository.snell(&["check", ".", "--bar", "fault"]);
    assert_eq!(
        checked.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&checked.stdout)
    );
    let told = repository.told(&["season"]);
    let wanted = "\
evening  two on a card
  year.rig
  2026-04-02  born       in card.rig
  2026-05-10  changed    upper is 12 in longer: 44 in, was 32 in
  2026-06-01  renamed    was card
  2026-06-10  dropped    taken out
  2026-06-20  returned   put back, in year.rig
  total                  2026-04-02 13 ft 4 in, 2026-05-10 14 ft 4 in, 2026-06-20 14 ft 4 in
  tippet                 2026-04-02 52 in, 2026-05-10 64 in, 2026-06-20 64 in
";
    assert!(told.starts_with(wanted), "{told}");
    assert!(!told.contains("An Angler"), "nobody is named unless asked");
    assert!(repository.told(&["season", "--who"]).contains("(An Angler)"));
}

/// In April the point was bracken; in June it was changed at the bank to slate; in July slate stood on it.
#[test]
fn outings_meet_the_rigs_of_their_days() {
    let season = history().json(&["season", "--form", "json"]);
    let sums = |key: &str| {
        let all = season[key].as_array().expect("sums").iter();
        all.map(|sum| {
            format!(
                "{} {} {}",
                sum["name"].as_str().expect("a name"),
                sum["outings"],
                sum["fish"]
            )
        })
        .collect::<Vec<_>>()
    };
    assert_eq!(sums("by_rig"), ["evening 4 10"]);
    assert_eq!(sums("by_water"), ["tail of the long pool 3 7", "weir 1 3"]);
    assert_eq!(sums("by_fly"), ["slate spider 3 8", "bracken nymph 1 2"]);
    let commits: Vec<bool> = season["outings"]
        .as_array()
        .expect("outings")
        .iter()
        .map(|outing| outing["commit"].is_string())
        .collect();
    assert_eq!(
        commits,
        [false, true, true, true],
        "the first day came before the rig was written down"
    );
}

#[test]
fn one_rig_is_found_by_any_name_and_path() {
    let repository = history();
    for arguments in [
        ["season", "--rig", "card"],
        ["season", "year.rig", "--who"],
        ["season", "--until", "HEAD~1"],
    ] {
        assert!(
            repository.told(&arguments).contains("renamed    was card"),
            "{arguments:?}"
        );
    }
    let ran = repository.snell(&["season", "--rig", "cart"]);
    assert_eq!(ran.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("did you mean `card`?"));
    let ran = repository.snell(&["season", "--measure", "totl"]);
    assert!(String::from_utf8_lossy(&ran.stderr).contains("did you mean `total`?"));
    let ran = repository.snell(&["season", "/"]);
    assert_eq!(ran.status.code(), Some(2), "no repository");
}

/// A picture is sound XML, and a page holds the same shapes; both name the rig and its last figure.
#[test]
fn the_chart_and_the_page_hold_the_same_story() {
    let repository = history();
    let svg = repository.told(&["season", "--form", "svg", "--measure", "total"]);
    assert!(
        svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\"") && svg.ends_with("</svg>\n"),
        "{svg}"
    );
    let heading = "<tspan class=\"strong\">evening</tspan> total<tspan class=\"quiet\">, 14 ft 4 in</tspan>";
    assert!(svg.contains(heading), "{svg}");
    // Up when it was made longer, and gone for ten days in June.
    let line = svg
        .lines()
        .find(|line| line.contains("class=\"line\""))
        .expect("a line");
    assert_eq!(line.matches(['M', 'V']).count(), 3, "{line}");
    assert_eq!(svg.matches("class=\"day\"").count(), 4, "each outing is marked");
    for mark in [
        ">May<",
        ">2026-03-30<",
        ">2026-07-02<",
        ">13 ft 4 in<",
        ">14 ft 4 in<",
    ] {
        assert!(svg.contains(mark), "{mark} in {svg}");
    }
    let page = repository.told(&["season", "--form", "html", "--measure", "total"]);
    assert!(
        page.contains(line) && page.contains("<td class=\"figure\">10</td>"),
        "{page}"
    );
    // What is dark on a screen is black on paper.
    let dark = page.matches("(prefers-color-scheme").count();
    assert!(dark > 0 && dark == page.matches("@media screen and (prefers-color-scheme").count());
}
