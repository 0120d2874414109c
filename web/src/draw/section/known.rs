//! Plans that were drawn lately, so that a change that is taken back looks as it did before.

use std::collections::VecDeque;

use levertrain_core::Train;

use super::Layout;
use super::plan::Plan;
use super::shape::Shape;

/// How many are remembered.
const MOST: usize = 32;

/// The plans of the last few trains.
#[derive(Debug, Default)]
pub struct Known {
    plans: VecDeque<(Shape, Plan)>,
}

impl Known {
    /// Remembers how a train is drawn.
    pub fn note(&mut self, layout: &Layout) {
        let shape = Shape::of(&layout.train);
        self.plans.retain(|(known, _)| *known != shape);
        if self.plans.len() == MOST {
            self.plans.pop_front();
        }
        self.plans.push_back((shape, layout.found.clone()));
    }

    /// How a train of this shape was drawn last, if one was lately.
    pub fn layout(&self, train: &Train, one_module: bool) -> Option<Layout> {
        let shape = Shape::of(train);
        let (_, plan) = self.plans.iter().find(|(known, _)| *known == shape)?;
        let mut layout = Layout::by(plan.clone(), train);
        layout.scale(one_module);
        Some(layout)
    }
}
