//! Finding what a frame can be, in pieces: with many members and elements that takes minutes, and whoever is told to rest
//! should.

use super::choose::{Around, Chooser, Chosen};
use super::drives::DriveFinder;
use super::frame::Frame;

/// A frame of which it is being found what it can be.
pub(super) struct Opening {
    frame: Frame,
    finder: DriveFinder,
    /// Once its drives are known.
    chooser: Option<Chooser>,
}

impl Opening {
    pub(super) fn new(frame: Frame, around: Around<'_>) -> Self {
        Self {
            frame,
            finder: DriveFinder::new(around.class),
            chooser: None,
        }
    }

    /// Goes on for a piece; what was chosen, once nothing is left.
    pub(super) fn run(&mut self, around: Around<'_>) -> Option<Chosen> {
        if let Some(chooser) = &mut self.chooser {
            return chooser.run(around);
        }
        let drives = self.finder.run(around.class, &self.frame, around.all)?;
        self.chooser = Some(Chooser::new(self.frame.clone(), drives));
        None
    }
}
