//! Putting all labels of a diagram where they stand best together, each shaft named once at least.
//!
//! Each label is put beside its node where that costs least with all others where they are. Where some find no good
//! place so, all begin anew and these come first; the best of a few such rounds is kept.

use levertrain_core::Body;

use super::labels::{Placed, Subject, size};
use super::placing::{Board, Spot};
use crate::draw::scene::Bounds;

/// A label that costs more than this is asked for another place.
const POOR: f64 = 9.0;

/// How often all such are asked.
const ROUNDS: usize = 3;

/// How often all begin anew: each takes a millisecond or two, and a drawing that glides has little time.
const ANEW: usize = 8;

/// What a name is worth that stands elsewhere, too.
const NAMED_AGAIN: f64 = 2.0;

/// What a place may cost more than the one without the name, which stands nowhere else.
const NAMED: f64 = 90.0;

/// What a shaft without a name costs, and a node of which nothing is said.
const UNNAMED: f64 = 1000.0;
const UNSAID: f64 = 200.0;

/// Nowhere.
const NONE: Bounds = Bounds {
    left: f64::MIN,
    top: f64::MIN,
    width: 0.0,
    height: 0.0,
};

/// Arranges labels that have their first places.
pub(super) fn arrange(subjects: &[Subject], all: &mut [Option<Placed>], board: &mut Board) {
    for placed in all.iter().flatten() {
        lead(board, placed.own, placed.spot);
    }
    for body in unnamed(subjects, all) {
        if let Some(choice) = cheapest(subjects, all, board, body) {
            put(all, board, choice);
        }
    }
    settle(subjects, all, board);
    let mut best = (total(subjects, all, board), all.to_vec());
    let mut first: Vec<usize> = Vec::new();
    for _ in 0..ANEW {
        let blamed = blamed(subjects, all, board);
        if blamed.is_empty() {
            break;
        }
        first.retain(|index| !blamed.contains(index));
        first.splice(0..0, blamed);
        begin_anew(subjects, all, board, &first);
        settle(subjects, all, board);
        let cost = total(subjects, all, board);
        if cost < best.0 {
            best = (cost, all.to_vec());
        }
    }
    for (index, placed) in best.1.into_iter().enumerate() {
        match placed {
            Some(Placed { spot, .. }) if spot.area == NONE => all[index] = None,
            Some(Placed { spot, saying, .. }) => put(all, board, (index, saying, spot)),
            None => {}
        }
    }
}

/// Takes all labels away and puts them back one by one, `first` those that found no good place.
fn begin_anew(
    subjects: &[Subject],
    all: &mut [Option<Placed>],
    board: &mut Board,
    first: &[usize],
) {
    board.leaders.clear();
    for placed in all.iter_mut().flatten() {
        board.replace(placed.own, NONE);
        (placed.spot.area, placed.spot.leader) = (NONE, None);
    }
    let mut named: Vec<Body> = Vec::new();
    let others = (0..subjects.len()).filter(|index| !first.contains(index));
    for index in first.iter().copied().chain(others) {
        let subject = &subjects[index];
        let is_news = subject.bodies.iter().any(|body| !named.contains(body));
        let choice = best_of(subjects, all, board, index, is_news)
            .or_else(|| best_of(subjects, all, board, index, false));
        let Some((_, choice)) = choice else { continue };
        if subject.sayings[choice.1].names {
            named.extend(&subject.bodies);
        }
        put(all, board, choice);
    }
}

/// Moves labels that stand poorly as long as that helps.
fn settle(subjects: &[Subject], all: &mut [Option<Placed>], board: &mut Board) {
    for _ in 0..ROUNDS {
        let mut moved = false;
        for index in 0..subjects.len() {
            let Some(placed) = all[index] else { continue };
            let now = board.cost(subjects[index].centre, placed.spot, placed.own);
            if now <= POOR && placed.spot.area != NONE {
                continue;
            }
            let must_name = is_only_name(subjects, all, index);
            if let Some((cost, choice)) = best_of(subjects, all, board, index, must_name)
                && (cost < now - 1.0 || placed.spot.area == NONE)
            {
                put(all, board, choice);
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
}

/// What all places cost together.
fn total(subjects: &[Subject], all: &[Option<Placed>], board: &Board) -> f64 {
    let costs = subjects.iter().zip(all).map(|(subject, placed)| {
        placed.map_or(0.0, |placed| match placed.spot.area {
            NONE => UNSAID,
            _ => board.cost(subject.centre, placed.spot, placed.own),
        })
    });
    costs.sum::<f64>() + UNNAMED * unnamed(subjects, all).len() as f64
}

/// The labels that stand poorly or should say a name.
fn blamed(subjects: &[Subject], all: &[Option<Placed>], board: &Board) -> Vec<usize> {
    let unnamed = unnamed(subjects, all);
    let is_blamed = |&index: &usize| {
        let subject = &subjects[index];
        let unnamed = subject.bodies.iter().any(|body| unnamed.contains(body));
        all[index].is_some_and(|Placed { spot, own, .. }| {
            unnamed || spot.area == NONE || board.cost(subject.centre, spot, own) > POOR
        })
    };
    (0..subjects.len()).filter(is_blamed).collect()
}

/// Whether a label has a name that stands nowhere else.
fn is_only_name(subjects: &[Subject], all: &[Option<Placed>], index: usize) -> bool {
    let mut others = all.to_vec();
    others[index] = None;
    let named = named(subjects, &others);
    let subject = &subjects[index];
    let names = all[index].is_some_and(|placed| subject.sayings[placed.saying].names);
    names && subject.bodies.iter().any(|body| !named.contains(body))
}

/// The best place of a label with all others where they are, and what it costs to say it there.
fn best_of(
    subjects: &[Subject],
    all: &[Option<Placed>],
    board: &Board,
    index: usize,
    must_name: bool,
) -> Option<(f64, Choice)> {
    let (subject, placed) = (&subjects[index], all[index]?);
    let mut best: Option<(f64, Choice)> = None;
    for (saying, said) in subject.sayings.iter().enumerate() {
        if must_name && !said.names {
            continue;
        }
        let size = size(&said.lines);
        let spot = board.best(subject.centre, subject.reach, size, Some(placed.own));
        let Some(spot) = spot else { continue };
        // What says less stands nearly anywhere.
        let less = if said.names { 0.0 } else { NAMED_AGAIN };
        let cost = spot.cost + less;
        if best.is_none_or(|(least, _)| cost < least) {
            best = Some((cost, (index, saying, spot)));
        }
    }
    best
}

/// Notes the line that leads to a label.
fn lead(board: &mut Board, own: usize, spot: Spot) {
    board.leaders.retain(|(index, _)| *index != own);
    board
        .leaders
        .extend(spot.leader.map(|leader| (own, leader)));
}

fn put(all: &mut [Option<Placed>], board: &mut Board, (index, saying, spot): Choice) {
    if let Some(placed) = &mut all[index] {
        board.replace(placed.own, spot.area);
        lead(board, placed.own, spot);
        (placed.spot, placed.saying) = (spot, saying);
    }
}

/// What some label names.
fn named(subjects: &[Subject], all: &[Option<Placed>]) -> Vec<Body> {
    let names = |subject: &Subject, placed: &Option<Placed>| {
        let stands = |placed: &Placed| placed.spot.area != NONE;
        placed
            .filter(stands)
            .is_some_and(|placed| subject.sayings[placed.saying].names)
    };
    let both = subjects.iter().zip(all);
    both.filter(|(subject, placed)| names(subject, placed))
        .flat_map(|(subject, _)| subject.bodies.clone())
        .collect()
}

/// What has labels and no name.
pub(super) fn unnamed(subjects: &[Subject], all: &[Option<Placed>]) -> Vec<Body> {
    let named = named(subjects, all);
    let labelled = subjects
        .iter()
        .zip(all)
        .filter(|(_, placed)| placed.is_some());
    let mut unnamed: Vec<Body> = Vec::new();
    for body in labelled.flat_map(|(subject, _)| &subject.bodies) {
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
            let limit = best.map_or(placed.spot.cost + NAMED, |(.., spot)| spot.cost);
            if let Some(spot) = spot.filter(|spot| spot.cost < limit) {
                best = Some((index, saying, spot));
            }
        }
    }
    best
}
