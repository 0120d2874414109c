//! The kinds of edits, and reading one from JSON: its `edit` says which, the other fields what.

use super::surroundings::{Part, Rows};
use crate::base::problem::Problem;
use crate::json::{Fields, Value, strict, tagged_by};
use crate::model::coupling::SetTeeth;
use crate::model::coupling::{Mesh, PinionCount, Teeth};
use crate::model::scenario::{Friction, Scenario, Way};

/// Ids of the two bodies that an element joins.
type Ends = [String; 2];
/// Tooth counts, from the middle outwards.
type Counts = Vec<Teeth>;
/// Sets and their teeth.
type Sets = Vec<SetTeeth>;
/// Ids of elements.
type Ids = Vec<String>;

/// Makes the closed set of kinds from one list: the enum, and reading by `edit`.
macro_rules! edits {
    ($(#[$about:meta] $tag:literal => $name:ident { $($field:ident: $kind:ty),* },)+) => {
        /// One change of a scenario. Sets, shafts, elements and ranges are named by their ids; gears
        /// and members are counted from 0 in the order of [`crate::coupling::Parts`].
        #[derive(Debug, Clone, PartialEq)]
        #[cfg_attr(feature = "types", derive(ts_rs::TS))]
        #[cfg_attr(feature = "types", ts(tag = "edit"))]
        pub enum Edit {
            $(
                #[$about]
                #[cfg_attr(feature = "types", ts(rename = $tag))]
                #[allow(missing_docs)]
                $name { $($field: $kind),* },
            )+
            /// Puts another scenario in the place of this one.
            #[cfg_attr(feature = "types", ts(skip))]
            Whole(Box<Scenario>),
        }

        const TAGS: &[&str] = &[$($tag),+];

        fn of_kind(kind: &str, fields: Value, problems: &mut Vec<Problem>) -> Option<Edit> {
            $(if kind == $tag {
                let names = [$(stringify!($field)),*];
                let mut fields = Fields::of(fields, "", &names, &[], problems)?;
                // All fields are read before the first that is missing ends it.
                $(let $field: Option<$kind> = fields.take(stringify!($field));)*
                return Some(Edit::$name { $($field: $field?),* });
            })+
            None
        }
    };
}

edits! {
    /// Calls the train something else.
    "name" => Name { name: String },
    /// Says something else about it.
    "about" => About { about: String },
    /// Calls the housing something else; its usual name where this is empty.
    "housing" => Housing { label: String },
    /// Has the train driven through this shaft; where that was the output, the two change places.
    "input" => Input { shaft: String },
    /// Has it deliver through this shaft; where that was the input, the two change places.
    "output" => Output { shaft: String },
    /// Puts a new set of a kind, with usual tooth counts and shafts of its own, at a place along the axis.
    "add-set" => AddSet { kind: String, at: u32 },
    /// Puts another set like this one beside it, on shafts of its own.
    "repeat-set" => RepeatSet { set: String },
    /// Takes a set away, and the shafts that then carry nothing.
    "remove-set" => RemoveSet { set: String },
    /// Moves a set to another place along the axis.
    "move-set" => MoveSet { set: String, at: u32 },
    /// Calls a set something else.
    "label-set" => LabelSet { set: String, label: String },
    /// Changes the tooth count of a gear or step of a set.
    "teeth" => Teeth { set: String, gear: u32, teeth: Teeth },
    /// Changes the tooth counts of all gears and steps of a set.
    "cut" => Cut { set: String, teeth: Counts },
    /// Changes the tooth counts of some sets at once, and how many pinions they have.
    "cut-sets" => CutSets { sets: Sets },
    /// Changes how many pinions stand around the axis.
    "count" => Count { set: String, count: PinionCount },
    /// Draws a set with two suns or stepped pinions turned round, or not; as the drawing finds best where this is nothing.
    "turn" => Turn { set: String, turned: Option<bool> },
    /// Changes how the teeth of a pair meet.
    "mesh" => Mesh { set: String, mesh: Mesh },
    /// Puts a member of a set on this shaft, on the `housing`, or on a new shaft of its own where this is empty.
    "place" => Place { set: String, member: u32, shaft: String },
    /// Makes one body of two: all that is on the second is then on the first. One of them may be the `housing`.
    "connect" => Connect { first: String, second: String },
    /// Calls a shaft something else.
    "label-shaft" => LabelShaft { shaft: String, label: String },
    /// Adds a `brake`, a `clutch` or a `one-way` clutch between two shafts, of which the second may be the `housing`.
    "add-element" => AddElement { kind: String, ends: Ends },
    /// Takes an element away, out of the ranges too.
    "remove-element" => RemoveElement { element: String },
    /// Moves an element to another place in their list.
    "move-element" => MoveElement { element: String, at: u32 },
    /// Calls an element something else.
    "label-element" => LabelElement { element: String, label: String },
    /// Has an element join other shafts; of a brake the second is the `housing`.
    "ends" => Ends { element: String, ends: Ends },
    /// Changes the way a one-way clutch locks.
    "locks" => Locks { element: String, way: Way },
    /// Draws an element in the room before the first set (0), after it (1) and so on, or where the drawing finds best.
    "gap" => Gap { element: String, gap: Option<u32> },
    /// Changes what a brake or clutch can hold; nothing where that is not known.
    "friction" => Friction { element: String, friction: Option<Friction> },
    /// Makes a range of this label, or a numbered one where it is empty, of these applied elements.
    "add-range" => AddRange { label: String, applied: Ids },
    /// Takes a range away.
    "remove-range" => RemoveRange { range: String },
    /// Moves a range to another place in their list.
    "move-range" => MoveRange { range: String, at: u32 },
    /// Calls a range something else.
    "label-range" => LabelRange { range: String, label: String },
    /// Has a range apply other elements.
    "applied" => Applied { range: String, applied: Ids },
    /// Puts an engine and a load with usual data around the train, or a torque converter behind the engine; or takes them away.
    "surround" => Surround { part: Part, there: bool },
    /// Calls engine, torque converter or load something else.
    "label-part" => LabelPart { part: Part, label: String },
    /// Changes a number of engine, converter or load; rows and columns are counted from 0.
    "amount" => Amount { rows: Rows, at: u32, column: u32, amount: f64 },
    /// Puts a point before the one at a place in their list, where the curve goes through already; or takes that one away.
    "point" => Point { rows: Rows, at: u32, there: bool },
    /// States a number of the fields `dynamics`, `vehicle` or `sources` by its path, in which items of lists are called by their ids; or no longer.
    "state" => State { path: Ids, amount: Option<f64> },
}

impl Edit {
    /// Reads an edit, such as `{"edit": "teeth", "set": "p1", "gear": 0, "teeth": 36}`.
    ///
    /// # Errors
    /// Every problem of the text: that it is no JSON, that there is no such edit, fields that are
    /// missing, unknown or of the wrong kind, numbers out of their limits.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let read = strict(text).map_err(|problem| vec![problem])?;
        read_edit(read, &mut problems).ok_or(problems)
    }
}

fn read_edit(value: Value, problems: &mut Vec<Problem>) -> Option<Edit> {
    let (kind, fields) = tagged_by("edit", value, "", "edit", TAGS, problems)?;
    of_kind(&kind, fields, problems).filter(|_| problems.is_empty())
}
