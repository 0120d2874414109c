//! Naming every shaft where there is little room: in large letters.

use levertrain_core::Body;

use super::labels::{Placed, Subject, size};
use super::placing::{Board, Spot};
use super::saying::{Line, Saying};
use crate::draw::scene::Bounds;

/// What a place may cost more than the one without the name, which stands nowhere else.
const WORTH_NAMING: f64 = 90.0;

/// How often another label is asked to make room in one drawing: each takes about a tenth of a millisecond, and a
/// drawing that glides has little time.
const TRIES: usize = 64;

/// Nowhere.
const NONE: Bounds = Bounds {
    left: f64::MIN,
    top: f64::MIN,
    width: 0.0,
    height: 0.0,
};

/// Names the shafts that have no name yet, each at that node where it covers least: in more lines if need be, or
/// where another label has made room.
pub(super) fn name_the_rest(
    subjects: &mut [Subject],
    all: &mut [Option<Placed>],
    board: &mut Board,
) {
    for subject in &mut *subjects {
        subject.sayings.extend(alone(&subject.sayings));
        let narrow: Vec<Saying> = subject.sayings.iter().filter_map(narrower).collect();
        subject.sayings.extend(narrow);
    }
    let subjects = &*subjects;
    for body in unnamed(subjects, all) {
        if let Some(choice) = cheapest(subjects, all, board, body) {
            put(all, board, choice);
        }
    }
    let mut tries = TRIES;
    for body in unnamed(subjects, all) {
        // Another name may be this one's too, where both turn as one.
        if unnamed(subjects, all).contains(&body) {
            make_room(subjects, all, board, body, &mut tries);
        }
    }
}

/// Names one where another label can move out of the way.
fn make_room(
    subjects: &[Subject],
    all: &mut [Option<Placed>],
    board: &mut Board,
    body: Body,
    tries: &mut usize,
) {
    for other in 0..all.len().min(*tries) {
        *tries -= 1;
        let Some(before) = all[other] else { continue };
        board.replace(before.own, NONE);
        let Some(choice) = cheapest(subjects, all, board, body).filter(|choice| choice.0 != other)
        else {
            board.replace(before.own, before.spot.area);
            continue;
        };
        let old = all[choice.0];
        put(all, board, choice);
        // It says what it said, elsewhere.
        let subject = &subjects[other];
        let said = size(&subject.sayings[before.saying].lines);
        let limit = before.spot.cost + WORTH_NAMING;
        let elsewhere = board.best(subject.centre, subject.reach, said, Some(before.own));
        if let Some(spot) = elsewhere.filter(|spot| spot.cost < limit) {
            put(all, board, (other, before.saying, spot));
            return;
        }
        if let Some(old) = old {
            put(all, board, (choice.0, old.saying, old.spot));
        }
        board.replace(before.own, before.spot.area);
    }
}

fn put(all: &mut [Option<Placed>], board: &mut Board, (index, saying, spot): Choice) {
    if let Some(placed) = &mut all[index] {
        board.replace(placed.own, spot.area);
        (placed.spot, placed.saying) = (spot, saying);
    }
}

/// The name alone, of a node of which more is said in a line under it.
fn alone(sayings: &[Saying]) -> Option<Saying> {
    let [first, second, ..] = sayings else {
        return None;
    };
    let under = first.names && second.names && second.lines.len() == first.lines.len() + 1;
    let (_, lines) = second.lines.split_last().filter(|_| under)?;
    Some(Saying {
        lines: lines.to_vec(),
        names: true,
    })
}

/// The same in more lines, where a name has several words.
fn narrower(saying: &Saying) -> Option<Saying> {
    if !saying.names {
        return None;
    }
    let mut lines = Vec::new();
    for line in &saying.lines {
        match halves(&line.text) {
            Some(halves) => lines.extend(halves.map(|text| Line {
                text: text.to_owned(),
                ..line.clone()
            })),
            None => lines.push(line.clone()),
        }
    }
    let names = true;
    (lines.len() > saying.lines.len()).then_some(Saying { lines, names })
}

/// A text in two that are as long as each other, nearly.
fn halves(text: &str) -> Option<[&str; 2]> {
    const LONG: usize = 12;
    if text.len() < LONG {
        return None;
    }
    let spaces = text.match_indices(' ').map(|(at, _)| at);
    let at = spaces.min_by_key(|at| at.abs_diff(text.len() / 2))?;
    Some([&text[..at], &text[at + 1..]])
}

/// What has labels and no name.
fn unnamed(subjects: &[Subject], all: &[Option<Placed>]) -> Vec<Body> {
    let both = || subjects.iter().zip(all);
    let names = |subject: &Subject, placed: &Option<Placed>| {
        placed.is_some_and(|placed| subject.sayings[placed.saying].names)
    };
    let named: Vec<Body> = both()
        .filter(|(subject, placed)| names(subject, placed))
        .flat_map(|(subject, _)| subject.bodies.clone())
        .collect();
    let mut unnamed: Vec<Body> = Vec::new();
    for body in both().flat_map(|(subject, _)| &subject.bodies) {
        if !named.contains(body) && !unnamed.contains(body) {
            unnamed.push(*body);
        }
    }
    unnamed
}

/// A label, what it says, and where.
type Choice = (usize, usize, Spot);

/// The node at which a name costs least, what is said there, and where.
fn cheapest(
    subjects: &[Subject],
    all: &[Option<Placed>],
    board: &Board,
    body: Body,
) -> Option<Choice> {
    let mut best: Option<Choice> = None;
    for (index, subject) in subjects.iter().enumerate() {
        let Some(placed) = all[index] else { continue };
        if !subject.bodies.contains(&body) {
            continue;
        }
        for (saying, said) in subject.sayings.iter().enumerate() {
            if !said.names {
                continue;
            }
            let size = size(&said.lines);
            let spot = board.best(subject.centre, subject.reach, size, Some(placed.own));
            let limit = best.map_or(placed.spot.cost + WORTH_NAMING, |(.., spot)| spot.cost);
            if let Some(spot) = spot.filter(|spot| spot.cost < limit) {
                best = Some((index, saying, spot));
            }
        }
    }
    best
}
