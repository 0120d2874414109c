//! Changing a scenario: typed edits, each of which makes one scenario of another, and the way back.
//!
//! An [`Edit`] names what it changes by id and knows no screen. [`Edit::of`] gives the scenario after
//! it, or says why it cannot be; whether that is a gear train is for [`crate::Train::new`] to say. A
//! train that is half made is an ordinary one: a new set has shafts of its own, which float until they
//! are joined to others. [`History`] keeps what each edit changed, so that every step can be undone.

mod difference;
mod elements;
pub(crate) mod fresh;
mod history;
mod kinds;
mod members;
mod nearest;
mod ranges;
mod ratios;
mod samples;
mod sets;
mod stated;
mod surroundings;
mod text;

pub use history::History;
pub use kinds::Edit;
pub use nearest::nearest_teeth;
pub use ratios::{NearRatio, near_ratios, ratio_of};
pub(crate) use samples::set as sample;
pub use samples::{blank, starter};
pub use surroundings::{Part, Rows};
pub use text::text;

use crate::base::problem::Problem;
use crate::model::coupling::SetTeeth;
use crate::model::scenario::Scenario;
use crate::train::unknown;

impl Edit {
    /// The scenario after this change; other parts stay as they are.
    ///
    /// # Errors
    /// It names what is not there, or would have a coupling or an element join a shaft with itself.
    pub fn of(&self, before: &Scenario) -> Result<Scenario, Problem> {
        let mut after = before.clone();
        let scenario = &mut after;
        match self {
            Self::Name { name } => scenario.name.clone_from(name),
            Self::About { about } => scenario.about.clone_from(about),
            Self::Housing { label } => {
                scenario.housing_label = Some(label.clone()).filter(|label| !label.is_empty());
            }
            Self::Input { shaft } => members::drive(scenario, shaft)?,
            Self::Output { shaft } => members::deliver(scenario, shaft)?,
            Self::AddSet { kind, at } => sets::add(scenario, kind, *at as usize)?,
            Self::RepeatSet { set } => sets::repeat(scenario, set)?,
            Self::RemoveSet { set } => sets::remove(scenario, set)?,
            Self::MoveSet { set, at } => sets::shift(scenario, set, *at as usize)?,
            Self::LabelSet { set, label } => {
                let at = set_at(scenario, set)?;
                scenario.couplings[at].parts().label.clone_from(label);
            }
            Self::Teeth { set, gear, teeth } => sets::cut(scenario, set, *gear as usize, *teeth)?,
            Self::Cut { set, teeth } => sets::cut_all(scenario, set, teeth)?,
            Self::CutSets { sets: cut } => {
                for SetTeeth {
                    set,
                    teeth,
                    pinions,
                } in cut
                {
                    sets::cut_all(scenario, set, teeth)?;
                    if let Some(pinions) = pinions {
                        sets::count(scenario, set, *pinions)?;
                    }
                }
            }
            Self::Count { set, count } => sets::count(scenario, set, *count)?,
            Self::Turn { set, turned } => sets::turn(scenario, set, *turned)?,
            Self::Mesh { set, mesh } => sets::mesh(scenario, set, *mesh)?,
            Self::Place { set, member, shaft } => {
                members::place(scenario, set, *member as usize, shaft)?
            }
            Self::Connect { first, second } => members::connect(scenario, first, second)?,
            Self::LabelShaft { shaft, label } => {
                let at = shaft_at(scenario, shaft)?;
                scenario.shafts[at].label.clone_from(label);
            }
            Self::AddElement { kind, ends } => elements::add(scenario, kind, ends)?,
            Self::RemoveElement { element } => elements::remove(scenario, element)?,
            Self::MoveElement { element, at: to } => {
                let at = element_at(scenario, element)?;
                moved(&mut scenario.elements, at, *to as usize);
            }
            Self::LabelElement { element, label } => elements::label(scenario, element, label)?,
            Self::Ends { element, ends } => elements::ends(scenario, element, ends)?,
            Self::Locks { element, way } => elements::locks(scenario, element, *way)?,
            Self::Gap { element, gap } => {
                let at = element_at(scenario, element)?;
                scenario.elements[at].set_gap(*gap);
            }
            Self::Friction { element, friction } => {
                elements::friction(scenario, element, *friction)?
            }
            Self::AddRange { label, applied } => ranges::add(scenario, label, applied),
            Self::RemoveRange { range } => {
                let at = range_at(scenario, range)?;
                scenario.ranges.remove(at);
            }
            Self::MoveRange { range, at: to } => {
                let at = range_at(scenario, range)?;
                moved(&mut scenario.ranges, at, *to as usize);
            }
            Self::LabelRange { range, label } => {
                let at = range_at(scenario, range)?;
                scenario.ranges[at].label.clone_from(label);
            }
            Self::Applied { range, applied } => {
                let at = range_at(scenario, range)?;
                scenario.ranges[at].applied.clone_from(applied);
            }
            Self::Surround { part, there } => surroundings::surround(scenario, *part, *there),
            Self::LabelPart { part, label } => surroundings::label(scenario, *part, label)?,
            Self::Amount {
                rows,
                at,
                column,
                amount,
            } => {
                let (at, column) = (*at as usize, *column as usize);
                surroundings::amount(scenario, *rows, at, column, *amount)?;
            }
            Self::Point { rows, at, there } => {
                surroundings::point(scenario, *rows, *at as usize, *there)?;
            }
            Self::State { path, amount } => stated::state(scenario, path, *amount)?,
            Self::Whole(scenario) => after = Scenario::clone(scenario),
        }
        Ok(after)
    }
}

fn set_at(scenario: &Scenario, id: &str) -> Result<usize, Problem> {
    let ids = scenario.couplings.iter().map(|set| set.facts().id());
    position("coupling", "couplings", id, ids)
}

fn shaft_at(scenario: &Scenario, id: &str) -> Result<usize, Problem> {
    let ids = scenario.shafts.iter().map(|shaft| shaft.id.as_str());
    position("shaft", "shafts", id, ids)
}

fn element_at(scenario: &Scenario, id: &str) -> Result<usize, Problem> {
    let ids = scenario.elements.iter().map(|element| element.id());
    position("element", "elements", id, ids)
}

fn range_at(scenario: &Scenario, id: &str) -> Result<usize, Problem> {
    let ids = scenario.ranges.iter().map(|range| range.id.as_str());
    position("range", "ranges", id, ids)
}

/// Where the item with this id is in its list.
fn position<'a>(
    what: &str,
    list: &str,
    id: &str,
    mut ids: impl Iterator<Item = &'a str> + Clone,
) -> Result<usize, Problem> {
    let known = ids.clone();
    ids.position(|known| known == id)
        .ok_or_else(|| unknown(what, list, id, known))
}

/// Moves an item of a list to another place in it, the last where there are fewer.
fn moved<T>(items: &mut Vec<T>, at: usize, to: usize) {
    let item = items.remove(at);
    items.insert(to.min(items.len()), item);
}
