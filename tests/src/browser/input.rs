//! Hands on the page: mouse, finger, pen and keys, through the browser's own input.

use std::time::Duration;

use anyhow::Result;
use fantoccini::actions::{
    Actions, InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, MouseActions, PenActions,
    PointerAction, TouchActions,
};
pub use fantoccini::key::Key;

use super::page::Page;

/// What the user points with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Device {
    /// A mouse.
    Mouse,
    /// A finger.
    Touch,
    /// A pen.
    Pen,
}

impl Page {
    /// Presses at the first point and moves through the others without letting go; points are in
    /// CSS pixels of the window.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn press_and_move(&self, device: Device, points: &[(f64, f64)]) -> Result<()> {
        let mut steps = Vec::new();
        for (index, &(x, y)) in points.iter().enumerate() {
            let duration = Some(Duration::ZERO);
            steps.push(PointerAction::MoveTo { duration, x, y });
            if index == 0 {
                let button = MOUSE_BUTTON_LEFT;
                steps.push(PointerAction::Down { button });
            }
        }
        self.point(device, steps)
    }

    /// Moves on without letting go.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn move_on(&self, device: Device, (x, y): (f64, f64)) -> Result<()> {
        let duration = Some(Duration::ZERO);
        self.point(device, vec![PointerAction::MoveTo { duration, x, y }])
    }

    /// Lets go.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn let_go(&self, device: Device) -> Result<()> {
        let button = MOUSE_BUTTON_LEFT;
        self.point(device, vec![PointerAction::Up { button }])
    }

    /// Presses and releases keys, one after the other, where the focus is.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn keys(&self, keys: impl IntoIterator<Item = Key>) -> Result<()> {
        let sequence = keys
            .into_iter()
            .fold(KeyActions::new("keys".into()), |sequence, key| {
                let value = char::from(key);
                sequence
                    .then(KeyAction::Down { value })
                    .then(KeyAction::Up { value })
            });
        self.session().actions(sequence.into())
    }

    fn point(&self, device: Device, steps: Vec<PointerAction>) -> Result<()> {
        // The same name each time: a pressed button stays pressed between calls.
        let name = format!("{device:?}");
        let actions: Actions = match device {
            Device::Mouse => steps
                .into_iter()
                .fold(MouseActions::new(name), InputSource::then)
                .into(),
            Device::Touch => steps
                .into_iter()
                .fold(TouchActions::new(name), InputSource::then)
                .into(),
            Device::Pen => steps
                .into_iter()
                .fold(PenActions::new(name), InputSource::then)
                .into(),
        };
        self.session().actions(actions)
    }
}
