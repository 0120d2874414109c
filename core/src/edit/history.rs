//! The edits that were made, and the way back and forth between them.

use super::Edit;
use super::difference::{Difference, Side};
use crate::model::scenario::Scenario;

/// Steps that are kept; the oldest go first.
const STEPS: usize = 1000;

/// What was changed, step by step, and how many of the steps are in effect.
#[derive(Debug, Clone, Default)]
pub struct History {
    steps: Vec<Step>,
    done: usize,
    /// Whether the next edit may join the last step: not once that was taken back, by letters or by undoing.
    open: bool,
}

#[derive(Debug, Clone)]
struct Step {
    difference: Difference,
    /// The edit that made it: one of the same number or text joins it, where it continues it.
    edit: Edit,
}

impl History {
    /// Notes that an edit made `after` of `before`; what was undone until then is forgotten. One that
    /// `continues` the last one, of the same number or text, is the same step: every letter that is
    /// typed is an edit of its own.
    pub fn note(&mut self, edit: &Edit, before: &Scenario, after: &Scenario, continues: bool) {
        self.steps.truncate(self.done);
        let continues = continues && self.open;
        let joins = |last: &mut Step| continues && edit.is_of_same(&last.edit);
        let difference = match self.steps.pop_if(joins) {
            Some(Step { difference, .. }) => {
                let mut start = before.clone();
                difference.take_to(Side::Before, &mut start);
                Difference::between(&start, after)
            }
            None => Difference::between(before, after),
        };
        self.open = !difference.is_none();
        if self.open {
            let step = Step {
                difference,
                edit: edit.clone(),
            };
            self.steps.push(step);
        }
        if self.steps.len() > STEPS {
            self.steps.remove(0);
        }
        self.done = self.steps.len();
    }

    /// The scenario before the last step in effect; nothing where there is none.
    pub fn undo(&mut self, now: &Scenario) -> Option<Scenario> {
        self.done = self.done.checked_sub(1)?;
        self.open = false;
        Some(self.taken(now, Side::Before))
    }

    /// The scenario after the next step that was undone; nothing where there is none.
    pub fn redo(&mut self, now: &Scenario) -> Option<Scenario> {
        (self.done < self.steps.len()).then(|| {
            let after = self.taken(now, Side::After);
            self.done += 1;
            self.open = false;
            after
        })
    }

    fn taken(&self, now: &Scenario, side: Side) -> Scenario {
        let mut scenario = now.clone();
        self.steps[self.done]
            .difference
            .take_to(side, &mut scenario);
        scenario
    }

    /// How many steps can be undone, and how many done again.
    pub fn depth(&self) -> [usize; 2] {
        [self.done, self.steps.len() - self.done]
    }
}

impl Edit {
    /// Whether it changes the same number or text as another: such edits are made letter by letter.
    fn is_of_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Name { .. }, Self::Name { .. })
            | (Self::About { .. }, Self::About { .. })
            | (Self::Housing { .. }, Self::Housing { .. })
            | (Self::CutSets { .. }, Self::CutSets { .. })
            | (Self::Whole(_), Self::Whole(_)) => true,
            (Self::LabelSet { set: one, .. }, Self::LabelSet { set: two, .. })
            | (Self::Count { set: one, .. }, Self::Count { set: two, .. })
            | (Self::Cut { set: one, .. }, Self::Cut { set: two, .. })
            | (Self::LabelShaft { shaft: one, .. }, Self::LabelShaft { shaft: two, .. })
            | (Self::LabelElement { element: one, .. }, Self::LabelElement { element: two, .. })
            | (Self::Friction { element: one, .. }, Self::Friction { element: two, .. })
            | (Self::LabelRange { range: one, .. }, Self::LabelRange { range: two, .. }) => {
                one == two
            }
            (Self::LabelPart { part: one, .. }, Self::LabelPart { part: two, .. }) => one == two,
            (
                Self::Amount {
                    rows: one,
                    at,
                    column,
                    ..
                },
                Self::Amount {
                    rows: two,
                    at: other,
                    column: another,
                    ..
                },
            ) => one == two && at == other && column == another,
            (
                Self::Teeth { set: one, gear, .. },
                Self::Teeth {
                    set: two,
                    gear: other,
                    ..
                },
            ) => one == two && gear == other,
            _ => false,
        }
    }
}
