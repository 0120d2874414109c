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

const DOWN: PointerAction = PointerAction::Down {
    button: MOUSE_BUTTON_LEFT,
};
const UP: PointerAction = PointerAction::Up {
    button: MOUSE_BUTTON_LEFT,
};

fn move_to((x, y): (f64, f64)) -> PointerAction {
    let duration = Some(Duration::ZERO);
    PointerAction::MoveTo { duration, x, y }
}

fn press_and_move(points: &[(f64, f64)]) -> Vec<PointerAction> {
    let mut steps: Vec<_> = points.iter().copied().map(move_to).collect();
    steps.insert(steps.len().min(1), DOWN);
    steps
}

impl Page {
    /// Presses at the first point, moves through the others and lets go; points are in CSS pixels
    /// of the window.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn gesture(&self, device: Device, points: &[(f64, f64)]) -> Result<()> {
        let mut steps = press_and_move(points);
        steps.push(UP);
        self.point(device, steps)
    }

    /// Drags with the mouse, presses a key on the way, and goes on to where it lets go.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn gesture_with_key(
        &self,
        before: &[(f64, f64)],
        key: Key,
        after: &[(f64, f64)],
    ) -> Result<()> {
        const NOW: Duration = Duration::ZERO;
        let mut steps = press_and_move(before);
        let mut keys = KeyActions::new("keys".into());
        for _ in &steps {
            keys = keys.pause(NOW);
        }
        let value = char::from(key);
        keys = keys
            .then(KeyAction::Down { value })
            .then(KeyAction::Up { value });
        let pause = || PointerAction::Pause { duration: NOW };
        steps.extend([pause(), pause()]);
        steps.extend(after.iter().copied().map(move_to));
        steps.push(UP);
        let mouse = steps
            .into_iter()
            .fold(MouseActions::new("mouse".into()), InputSource::then);
        self.session().actions(Actions::from(mouse).and(keys))
    }

    /// Moves the mouse to a point, in CSS pixels of the window.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn point_at(&self, place: (f64, f64)) -> Result<()> {
        self.point(Device::Mouse, vec![move_to(place)])
    }

    /// Moves the mouse to where nothing is: what it points at is lit.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn point_away(&self) -> Result<()> {
        self.point_at((1.0, 1.0))
    }

    /// Presses and releases keys, one after the other, where the focus is.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn keys(&self, keys: impl IntoIterator<Item = impl Into<char>>) -> Result<()> {
        let sequence = keys
            .into_iter()
            .fold(KeyActions::new("keys".into()), |sequence, key| {
                let value = key.into();
                sequence
                    .then(KeyAction::Down { value })
                    .then(KeyAction::Up { value })
            });
        self.session().actions(sequence.into())
    }

    /// Presses a key while another is held down.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn chord(&self, held: Key, key: char) -> Result<()> {
        let held = char::from(held);
        let steps = [
            KeyAction::Down { value: held },
            KeyAction::Down { value: key },
            KeyAction::Up { value: key },
            KeyAction::Up { value: held },
        ];
        let sequence = steps
            .into_iter()
            .fold(KeyActions::new("keys".into()), InputSource::then);
        self.session().actions(sequence.into())
    }

    fn point(&self, device: Device, steps: Vec<PointerAction>) -> Result<()> {
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
