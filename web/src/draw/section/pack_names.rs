//! What clutches and brakes are called in half-section, and where that stands.

use levertrain_core::scenario::Element;
use levertrain_core::words::said;

use super::labels::{self, Place, Room, Wanted};
use super::lettering::Lettering;
use super::packs::{REACH, area};
use super::stage::{NAME_SIZE, Stage};
use crate::draw::names::isolated;
use crate::draw::scene::{Align, Bounds, Ink, Scene, at};
use crate::motion::live::Live;

/// Where the name of each element stands: the longest it may have is clear there.
pub fn places(stage: &Stage<'_>, room: &mut Room, letters: impl Lettering) -> Vec<Option<Place>> {
    const FAR: f64 = 60.0;
    let empty = room.clone();
    let mut places = places_with(stage, room, None, letters);
    let (index, away) = farthest(&places);
    // Others took the room beside it. Nearer ones stay, as what is moved for them is farther off then.
    if away > FAR {
        let mut again = empty;
        let others = places_with(stage, &mut again, Some(index), letters);
        if farthest(&others).1 < away {
            *room = again;
            places = others;
        }
    }
    places
}

/// Which name is the farthest from its pack, and how far that is; one without a place is nowhere.
fn farthest(places: &[Option<Place>]) -> (usize, f64) {
    let mut farthest = (0, 0.0);
    for (index, place) in places.iter().enumerate() {
        let away = place.as_ref().map_or(f64::INFINITY, Place::away);
        if away > farthest.1 {
            farthest = (index, away);
        }
    }
    farthest
}

/// The same with the name of one clutch before those of the others.
// Once: it is tried with one clutch after another.
#[inline(never)]
fn places_with(
    stage: &Stage<'_>,
    room: &mut Room,
    first: Option<usize>,
    letters: impl Lettering,
) -> Vec<Option<Place>> {
    let mut all_places = vec![None; stage.plan().packs.len()];
    // Brakes first: their row above the housing is theirs alone.
    let brake = |index: &usize| !stage.plan().packs[*index].is_flat();
    let all = 0..stage.plan().packs.len();
    let first = first.filter(|index| !brake(index));
    let clutches = all
        .clone()
        .filter(|index| !brake(index) && Some(*index) != first);
    for index in all.filter(brake).chain(first).chain(clutches) {
        let element = &stage.train().scenario().elements[index];
        let centre = stage.pack_centre(index);
        let upright = brake(&index);
        let subject = area(centre, upright);
        let first = if upright {
            let y = 13.0 - (NAME_SIZE / 2.0 + 1.0) * (letters.times() - 1.0);
            vec![(at(centre.x, y), Align::Centre)]
        } else {
            let beside = [0.0, -14.0, 14.0, -28.0, 28.0].into_iter();
            let away = REACH + 11.0 + NAME_SIZE / 2.0 * (letters.times() - 1.0);
            let places =
                beside.flat_map(|dx| [-away, away].map(|dy| at(centre.x + dx, centre.y + dy)));
            places.map(|place| (place, Align::Centre)).collect()
        };
        let wanted = Wanted {
            texts: vec![if letters.is_short() {
                short_name(element)
            } else {
                longest_name(element)
            }],
            size: NAME_SIZE * letters.times(),
            bold: true,
            subject: if upright {
                // The name stands on the other side of the housing, right over its pack.
                Bounds {
                    top: 27.0,
                    height: subject.height + subject.top - 27.0,
                    ..subject
                }
            } else {
                subject
            },
            first,
        };
        all_places[index] = room.place(&wanted);
    }
    all_places
}

/// Letters every element.
pub fn letter(
    scene: &mut Scene,
    stage: &Stage<'_>,
    live: &Live<'_>,
    (places, letters): (&[Option<Place>], impl Lettering),
) {
    let elements = live.train.scenario().elements.iter().zip(places);
    for (index, (element, place)) in elements.enumerate() {
        let Some(place) = place else { continue };
        let applied = live.applied.contains(index);
        let [first, second] = live.train.ends(index);
        let text = if place.text == longest_name(element) {
            name(element, applied, live.speed(first) != live.speed(second))
        } else {
            place.text.clone()
        };
        let ink = if applied && live.fighting.contains(index) {
            Ink::Fight
        } else {
            Ink::Text
        };
        labels::letter(
            scene,
            &place.spread(&|x| stage.spread_name(x)),
            &text,
            NAME_SIZE * letters.times(),
            applied,
            ink,
        );
    }
}

/// An element's name; a one-way clutch, which nobody applies, also says what it does. One that
/// neither locks nor slips is idle: something else holds its ends together.
fn name(element: &Element, applied: bool, slips: bool) -> String {
    let message = match (element.is_one_way(), applied, slips) {
        (false, ..) => return isolated(element.label()),
        (true, true, _) => "pack-locks",
        (true, false, true) => "pack-overruns",
        (true, false, false) => "pack-idle",
    };
    said(message, &[("element", &*isolated(element.label()))])
}

/// The longest name an element may show.
pub fn longest_name(element: &Element) -> String {
    if !element.is_one_way() {
        return isolated(element.label());
    }
    let mut longest = String::new();
    for (applied, slips) in [(true, false), (false, true), (false, false)] {
        let name = name(element, applied, slips);
        if name.chars().count() > longest.chars().count() {
            longest = name;
        }
    }
    longest
}

/// What an element is called where there is room for little: the letter that its label ends with, if it does.
fn short_name(element: &Element) -> String {
    const SHORT: usize = 3;
    let label = element.label();
    let last = label.rsplit(' ').next().unwrap_or(label);
    isolated(if last.chars().count() <= SHORT {
        last
    } else {
        label
    })
}
