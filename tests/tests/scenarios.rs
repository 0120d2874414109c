//! The scenario files that come with the project: each is a gear train that works as it says.

use anyhow::{Context, Result, anyhow, bail, ensure};
use levertrain_core::coupling::Coupling;
use levertrain_core::report::{CombinationReport, warnings};
use levertrain_core::scenario::{Element, FORMAT, OLDEST_FORMAT};
use levertrain_core::{Duty, ElementSet, Fraction, State, Train, Verdict};
use levertrain_tests::files::{self, ScenarioFile};
use levertrain_tests::schema::Schema;

/// Runs a check on every scenario and gathers what is wrong with any of them.
fn check_each(mut check: impl FnMut(&ScenarioFile, &Train) -> Result<()>) -> Result<()> {
    let mut wrong = Vec::new();
    let files = files::scenarios()?;
    for file in &files {
        let outcome = parse(file).and_then(|train| check(file, &train));
        if let Err(error) = outcome {
            wrong.push(format!("{}: {error:#}", file.stem));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

fn parse(file: &ScenarioFile) -> Result<Train> {
    Train::parse(&file.text).map_err(|problems| {
        let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
        anyhow!("{}", problems.join("\n"))
    })
}

/// Id of a range that is to drive nothing.
const NEUTRAL: &str = "N";

/// Whether sources and outputs decide together what turns how in a range, as many as there are degrees of freedom.
fn is_split(train: &Train, range: usize) -> bool {
    let combination = train.settle(train.range(range), Duty::Drive).combination;
    train.scenario().is_branched()
        && *combination.state() == State::Neutral
        && combination.degrees_of_freedom() == 2
}

/// Id and ratio of each range; every one must drive with nothing applied in vain, unless several sources or outputs decide.
fn ratios(train: &Train) -> Result<Vec<(&str, Fraction)>> {
    let ranges = train.scenario().ranges.iter().enumerate();
    ranges
        .filter(|&(index, range)| range.id != NEUTRAL && !is_split(train, index))
        .map(|(index, range)| {
            let settled = train.settle(train.range(index), Duty::Drive);
            ensure!(settled.verdict == Verdict::Settled, "range {}", range.id);
            let combination = settled.combination;
            let freedom = combination.degrees_of_freedom();
            match combination.state() {
                State::Driving(ratio) if freedom == 1 => Ok((range.id.as_str(), ratio.clone())),
                state => bail!("range {}: {state:?} with freedom {freedom}", range.id),
            }
        })
        .collect()
}

/// Every set of the elements that can be applied, in counting order.
fn applicable(train: &Train) -> Vec<ElementSet> {
    let elements = &train.scenario().elements;
    let sets = (0..1 << elements.len()).map(ElementSet::from_bits);
    sets.filter(|set| !set.iter().any(|index| elements[index].is_one_way()))
        .collect()
}

fn forward<'a>(ratios: &'a [(&str, Fraction)]) -> Vec<&'a Fraction> {
    let ratios = ratios.iter().map(|(_, ratio)| ratio);
    ratios.filter(|ratio| ratio.signum() > 0).collect()
}

#[test]
fn there_are_at_least_five() -> Result<()> {
    let count = files::scenarios()?.len();
    ensure!(count >= 5, "only {count}");
    Ok(())
}

#[test]
fn each_satisfies_the_schema() -> Result<()> {
    let schema = Schema::read()?;
    check_each(|file, _| {
        let problems = schema.problems(&serde_json::from_str(&file.text)?);
        ensure!(problems.is_empty(), "{}", problems.join("\n"));
        Ok(())
    })
}

#[test]
fn each_passes_the_tooth_checks() -> Result<()> {
    check_each(|_, train| {
        let warnings = warnings(train);
        ensure!(warnings.is_empty(), "{warnings:#?}");
        Ok(())
    })
}

#[test]
fn each_walk_says_what_its_combinations_say_one_by_one() -> Result<()> {
    check_each(|_, train| {
        let mut walked = Vec::new();
        train.for_each_combination(|combination| {
            walked.push(CombinationReport::from(combination));
        });
        let sets = applicable(train);
        ensure!(walked.len() == sets.len(), "{} visited", walked.len());
        for (walked, set) in walked.iter().zip(sets) {
            let single = train.settle(set, Duty::Drive).combination;
            let single = CombinationReport::from(&single);
            ensure!(*walked == single, "{walked:#?} against {single:#?}");
        }
        Ok(())
    })
}

#[test]
fn each_range_drives() -> Result<()> {
    check_each(|_, train| {
        let ratios = ratios(train)?;
        ensure!(!ratios.is_empty(), "no ranges");
        for (id, ratio) in ratios {
            eprintln!(
                "{}: {id} {ratio} = {:.4}",
                train.scenario().name,
                ratio.to_f64()
            );
        }
        Ok(())
    })
}

/// Common practice, no source: ranges are listed from the slowest to the fastest, reverse last.
/// Two with one ratio are told apart by engine braking: the second has it, the first has not.
#[test]
fn ratios_fall() -> Result<()> {
    check_each(|_, train| {
        let ratios = ratios(train)?;
        for (index, pair) in ratios.windows(2).enumerate() {
            let [this, next] = [index, index + 1].map(|x| train.brakes_engine(train.range(x)));
            let held = pair[0].1 == pair[1].1 && !this && next;
            ensure!(pair[0].1 > pair[1].1 || held, "{pair:?} in a row");
        }
        Ok(())
    })
}

/// A train with several sources or outputs opens where that shows.
#[test]
fn branched_trains_open_where_two_speeds_decide() -> Result<()> {
    let mut seen = 0;
    check_each(|_, train| {
        if train.scenario().is_branched() {
            seen += 1;
            ensure!(is_split(train, 0), "its first range");
        }
        Ok(())
    })?;
    ensure!(seen == 4, "{seen} of them");
    Ok(())
}

/// Common practice, no source: neutral keeps applied what both reverse and first need, so that either takes one more.
#[test]
fn neutral_is_one_element_from_first_and_reverse() -> Result<()> {
    let mut seen = 0;
    check_each(|_, train| {
        let ranges = &train.scenario().ranges;
        let at = |id: &str| ranges.iter().position(|range| range.id == id);
        let Some(neutral) = at(NEUTRAL) else {
            return Ok(());
        };
        seen += 1;
        let applied = train.range(neutral);
        let settled = train.settle(applied, Duty::Drive);
        ensure!(*settled.combination.state() == State::Neutral);
        for id in ["1", "R"] {
            let other = train.range(at(id).with_context(|| format!("no range {id}"))?);
            ensure!(
                applied.minus(other).is_empty() && other.minus(applied).len() == 1,
                "{id}"
            );
        }
        Ok(())
    })?;
    ensure!(seen > 0, "no scenario has a neutral range");
    Ok(())
}

/// Common practice, no source: what is called reverse turns the output backwards, and nothing
/// else does where a range has that name.
#[test]
fn reverse_is_negative() -> Result<()> {
    let mut trains = 0;
    for file in files::scenarios()? {
        let train = parse(&file)?;
        let ranges = train.scenario().ranges.iter();
        let is_reverse: Vec<bool> = ranges.map(|range| range.label == "Reverse").collect();
        if !is_reverse.contains(&true) {
            continue;
        }
        trains += 1;
        for ((id, ratio), is_reverse) in ratios(&train)?.iter().zip(is_reverse) {
            let name = &file.stem;
            ensure!(
                is_reverse == (ratio.signum() < 0),
                "{name}: range {id} has the ratio {ratio}"
            );
        }
    }
    // All but the sets that are shown for themselves: three, four, six and eight speeds.
    ensure!(trains >= 4, "only {trains} scenarios have a reverse");
    Ok(())
}

/// A shaft or an element that no part uses is a slip of the author.
#[test]
fn every_part_is_used() -> Result<()> {
    check_each(|_, train| {
        let scenario = train.scenario();
        for (index, shaft) in scenario.shafts.iter().enumerate() {
            let body = levertrain_core::Body::Shaft(index);
            let meshes = (0..scenario.couplings.len()).any(|x| train.members(x).contains(&body));
            let joined = (0..scenario.elements.len()).any(|x| train.ends(x).contains(&body));
            ensure!(meshes || joined, "nothing is on shaft {}", shaft.id);
        }
        for (index, element) in scenario.elements.iter().enumerate() {
            let chart = train.range_chart();
            let mut ranges = chart.ranges.iter();
            let used = ranges.any(|entry| entry.combination.applied().contains(index));
            ensure!(used, "no range applies or locks {}", element.id());
        }
        Ok(())
    })
}

/// The scenarios with this many forward ranges, with the ratios of each.
fn with_forward_ranges(count: usize) -> Result<Vec<Train>> {
    let mut trains = Vec::new();
    for file in files::scenarios()? {
        let train = parse(&file)?;
        if forward(&ratios(&train)?).len() == count {
            trains.push(train);
        }
    }
    ensure!(!trains.is_empty(), "no scenario has {count} forward ranges");
    Ok(trains)
}

fn is_single_row(coupling: &Coupling) -> bool {
    matches!(coupling, Coupling::Planetary(_))
}

#[test]
fn the_six_speed_has_three_sets_and_five_elements() -> Result<()> {
    let trains = with_forward_ranges(6)?.into_iter().filter(|train| {
        let couplings = &train.scenario().couplings;
        couplings.iter().all(is_single_row)
    });
    let trains: Vec<Train> = trains.collect();
    ensure!(!trains.is_empty(), "no six-speed of single sets alone");
    for train in trains {
        let scenario = train.scenario();
        let ratios = ratios(&train)?;
        let forward = forward(&ratios);
        let one = Fraction::ONE;
        let actual = (
            scenario
                .couplings
                .iter()
                .filter(|x| is_single_row(x))
                .count(),
            scenario.couplings.len(),
            scenario.elements.len(),
            ratios.len(),
            forward.iter().filter(|ratio| ***ratio == one).count(),
            forward.iter().filter(|ratio| ***ratio < one).count(),
        );
        ensure!(
            actual == (3, 3, 5, 7, 1, 2),
            "{}: (single-row sets, couplings, elements, ranges, direct, overdrives) is {actual:?}",
            scenario.name
        );
        check_applied(&train, 2)?;
    }
    Ok(())
}

/// The arrangement of example 12 of the references: one single set whose reduction never changes,
/// and a Ravigneaux set behind it that makes six ranges of two speeds.
#[test]
fn the_six_speed_with_a_front_set_has_one_set_of_four_members() -> Result<()> {
    let mut found = 0;
    for train in with_forward_ranges(6)? {
        let [front, Coupling::Ravigneaux(_)] = train.scenario().couplings.as_slice() else {
            continue;
        };
        found += 1;
        ensure!(is_single_row(front), "the front set");
        let held = train.members(0).contains(&levertrain_core::Body::Housing);
        ensure!(held, "a member of the front set is held for good");
        check_applied(&train, 2)?;
        ensure!(ratios(&train)?.len() == 7, "six forward ranges and reverse");
    }
    ensure!(found > 0, "no six-speed with a front set");
    Ok(())
}

#[test]
fn the_eight_speed_has_four_sets_and_three_applied() -> Result<()> {
    for train in with_forward_ranges(8)? {
        let scenario = train.scenario();
        ensure!(scenario.couplings.len() == 4, "{}", scenario.name);
        check_applied(&train, 3)?;
        let released = train.solve(Default::default()).degrees_of_freedom();
        ensure!(released == 4, "{}: {released} freedoms", scenario.name);
    }
    Ok(())
}

fn check_applied(train: &Train, count: usize) -> Result<()> {
    for (index, range) in train.scenario().ranges.iter().enumerate() {
        let applied = train.range(index).len();
        ensure!(
            applied == count || range.id == NEUTRAL,
            "{}: {applied} applied in {}",
            train.scenario().name,
            range.id
        );
    }
    Ok(())
}

/// One set with every choice of what is held and what is driven, a three-speed of two sets that
/// share a sun, and a train with two pinion rows are among them.
#[test]
fn the_classic_arrangements_are_there() -> Result<()> {
    let mut found = Vec::new();
    for file in files::scenarios()? {
        let train = parse(&file)?;
        let couplings = &train.scenario().couplings;
        let suns: Vec<_> = (0..couplings.len()).map(|x| train.members(x)[0]).collect();
        let forward = forward(&ratios(&train)?).len();
        found.push(match couplings.as_slice() {
            [one] if is_single_row(one) => "one set",
            [a, b]
                if is_single_row(a) && is_single_row(b) && suns[0] == suns[1] && forward == 3 =>
            {
                "three-speed on a common sun"
            }
            all if all.iter().any(|x| matches!(x, Coupling::DoublePinion(_))) && forward == 4 => {
                "four-speed with two pinion rows"
            }
            _ => "another",
        });
    }
    for wanted in [
        "one set",
        "three-speed on a common sun",
        "four-speed with two pinion rows",
    ] {
        ensure!(found.contains(&wanted), "{wanted} is missing: {found:?}");
    }
    Ok(())
}

/// k, 1/k and so on: with one set every ratio it can have is among the ranges.
#[test]
fn the_single_set_has_all_its_ratios() -> Result<()> {
    let mut checked = 0;
    for file in files::scenarios()? {
        let train = parse(&file)?;
        let [Coupling::Planetary(set)] = train.scenario().couplings.as_slice() else {
            continue;
        };
        let (s, r) = (set.sun.teeth.coefficient(), set.ring.teeth.coefficient());
        let expected: Option<Vec<Fraction>> = [
            (s + r, s),
            (s + r, r),
            (1, 1),
            (r, s + r),
            (s, s + r),
            (-r, s),
            (-s, r),
        ]
        .into_iter()
        .map(|(num, den)| Fraction::new(num, den))
        .collect();
        let mut expected = expected.context("a ratio of teeth")?;
        let mut actual: Vec<Fraction> = ratios(&train)?.into_iter().map(|(_, x)| x).collect();
        expected.sort();
        actual.sort();
        actual.dedup();
        ensure!(
            actual == expected,
            "{}: {actual:?}, expected {expected:?}",
            file.stem
        );
        checked += 1;
    }
    ensure!(checked > 0, "no scenario is a single set");
    Ok(())
}

/// One neutral lettering for all our scenarios: what joins two shafts has a letter from the first
/// half of the alphabet, what holds one a letter from its end, a one-way clutch stands between.
#[test]
fn elements_are_lettered_alike() -> Result<()> {
    check_each(|_, train| {
        let mut clutches = "HJKLMN".chars();
        let mut brakes = "VWXY".chars();
        let mut one_ways = "QP".chars();
        for element in &train.scenario().elements {
            let (letters, name) = match element {
                Element::Clutch(_) => (&mut clutches, "Clutch"),
                Element::Brake(_) => (&mut brakes, "Brake"),
                Element::OneWay(_) => (&mut one_ways, "One-way"),
            };
            let letter = letters.next().context("more elements than letters")?;
            ensure!(element.id() == letter.to_string(), "{}", element.id());
            ensure!(
                element.label() == format!("{name} {letter}"),
                "{}",
                element.label()
            );
        }
        Ok(())
    })
}

/// Catches a file of an older format that is read no more, or otherwise than when it was written: one of
/// each format is kept, of one train, with what that format can say of it.
#[test]
fn a_file_of_every_format_is_read() -> Result<()> {
    let files = files::json_files(&files::root().join("tests/formats"))?;
    let stems: Vec<&str> = files.iter().map(|file| file.stem.as_str()).collect();
    let formats = (OLDEST_FORMAT..=FORMAT).map(|format| format.to_string());
    ensure!(formats.eq(stems.iter().copied()), "{stems:?}");
    let trains = files.iter().map(|file| {
        Train::parse(&file.text).map_err(|problems| anyhow!("{}: {problems:?}", file.stem))
    });
    let trains = trains.collect::<Result<Vec<_>>>()?;
    for (file, train) in files.iter().zip(&trains) {
        let said = format!("\"format\": {}", file.stem);
        ensure!(file.text.contains(&said), "{}", file.stem);
        let written = levertrain_core::edit::text(train.scenario());
        let newest = format!("\"format\": {FORMAT}");
        ensure!(written.contains(&newest), "{}: {written}", file.stem);
        let ratios = |train: &Train| -> Vec<_> {
            let ranges = 0..train.scenario().ranges.len();
            ranges
                .map(|range| train.solve(train.range(range)).state().clone())
                .collect()
        };
        ensure!(ratios(train) == ratios(&trains[0]), "{}", file.stem);
    }
    let newest = trains.last().map(Train::scenario);
    let gaps = newest.map(|scenario| {
        scenario
            .elements
            .iter()
            .filter_map(Element::gap)
            .collect::<Vec<_>>()
    });
    ensure!(gaps == Some(vec![1, 2]), "{gaps:?}");
    let turned = newest.and_then(|scenario| scenario.couplings[1].facts().turned());
    ensure!(turned == Some(true), "{turned:?}");
    Ok(())
}
