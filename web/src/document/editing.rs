//! Changing the train that is on screen, and the way back.

use std::task::Poll;

use levertrain_core::edit::Edit;
use levertrain_core::{ElementSet, Problem, Scenario, Train};

use super::session::Session;
use crate::draw::section::Moved;
use crate::motion::glide::Glide;

/// What came of bettering the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mended {
    /// There is more to do.
    Begun,
    /// It stays as it is.
    Same,
    /// Things stand elsewhere.
    Other,
}

impl Session {
    /// Makes an edit; one that `continues` the last one is the same step of the history.
    ///
    /// # Errors
    /// Why it cannot be; then nothing has changed.
    pub fn edit(&mut self, edit: &Edit, continues: bool) -> Result<(), Vec<Problem>> {
        let before = self.train.scenario();
        let after = edit.of(before).map_err(|problem| vec![problem])?;
        let train = Train::new(after)?;
        self.history.note(edit, before, train.scenario(), continues);
        self.take(train);
        Ok(())
    }

    /// Takes the last edit back; whether there was one.
    pub fn undo(&mut self) -> bool {
        let before = self.history.undo(self.train.scenario());
        self.take_scenario(before)
    }

    /// Makes again the edit that was taken back last; whether there was one.
    pub fn redo(&mut self) -> bool {
        let after = self.history.redo(self.train.scenario());
        self.take_scenario(after)
    }

    /// Betters the drawing by some short steps where shafts cross.
    pub fn mend(&mut self, steps: u32) -> Mended {
        let Some(mending) = &mut self.mending else {
            return Mended::Same;
        };
        let layout = &self.layout;
        let better = |_| match layout.mended(mending) {
            Poll::Ready(better) => Some(better),
            Poll::Pending => None,
        };
        let Some(better) = (0..steps).find_map(better) else {
            return Mended::Begun;
        };
        self.mending = None;
        match better {
            Some(layout) => {
                let width = self.settings.width;
                let (before, after) = (self.layout.stage(width), layout.stage(width));
                self.moved = Moved::between(&before, self.moved.as_ref(), &after);
                self.layout = layout;
                Mended::Other
            }
            None => Mended::Same,
        }
    }

    /// How many edits can be taken back, and how many made again.
    pub fn depth(&self) -> [usize; 2] {
        self.history.depth()
    }

    /// Goes on with a scenario of the history, which was a train once and is one still.
    fn take_scenario(&mut self, scenario: Option<Scenario>) -> bool {
        let train = scenario.and_then(|scenario| Train::new(scenario).ok());
        train.map(|train| self.take(train)).is_some()
    }

    /// Goes on with another train: what has the same id is applied still, and speeds and packs glide from
    /// where they were.
    fn take(&mut self, train: Train) {
        let ids = |train: &Train, set: ElementSet| -> Vec<String> {
            let elements = &train.scenario().elements;
            set.iter().map(|at| elements[at].id().to_owned()).collect()
        };
        let mut known = ids(&self.train, self.applied);
        known.append(&mut self.lost);
        let applied = known.iter().filter_map(|id| train.element(id)).collect();
        known.retain(|id| train.element(id).is_none());
        self.drawn.note(&self.layout);
        let again = self.drawn.layout(&train, self.settings.one_module);
        let (layout, mending) = match again {
            Some(layout) => (layout, None),
            None => self.layout.after(&train),
        };
        let mut next = Self::with(train, layout, applied);
        let shafts = [&self.train, &next.train].map(|train| &train.scenario().shafts);
        let speeds = carried(
            shafts.map(|x| x.iter().map(|x| &*x.id).collect()),
            &self.speeds,
        );
        let elements = [&self.train, &next.train].map(|train| &train.scenario().elements);
        let grips = carried(
            elements.map(|x| x.iter().map(|x| x.id()).collect()),
            &self.grips,
        );
        next.speeds.set_off_from(speeds);
        next.grips.set_off_from(grips);
        let angles = shafts[1].iter().map(|shaft| {
            let before = shafts[0].iter().position(|known| known.id == shaft.id);
            before.map_or(0.0, |before| self.angles[before])
        });
        next.angles = angles.collect();
        next.history = std::mem::take(&mut self.history);
        next.lost = known;
        next.drawn = std::mem::take(&mut self.drawn);
        next.mending = mending;
        next.set(self.settings.clone());
        next.moved = Moved::between(&self.stage(), self.moved.as_ref(), &next.stage());
        *self = next;
    }
}

/// Where each of the values of the second ids was among those of the first, on its way; nothing for what
/// is new.
fn carried([before, after]: [Vec<&str>; 2], glide: &Glide) -> Vec<Option<f64>> {
    let shown = glide.shown();
    let was = |id: &&str| before.iter().position(|known| known == id);
    after.iter().map(|id| was(id).map(|at| shown[at])).collect()
}
