//! Opening a scenario in steps. Laying a train out takes long enough to hold up a page.

use levertrain_core::{Problem, Train};

use super::session::Session;
use crate::draw::section::LayingOut;

/// A scenario that is being opened.
#[derive(Debug)]
pub struct Opening {
    train: Train,
    laying_out: LayingOut,
}

impl Opening {
    /// Reads a scenario.
    ///
    /// # Errors
    /// Every problem of the file.
    pub fn of(text: &str) -> Result<Self, Vec<Problem>> {
        let train = Train::parse(text)?;
        Ok(Self {
            laying_out: LayingOut::of(&train),
            train,
        })
    }

    /// Takes one more step, which is short; the session, after the last.
    pub fn advance(&mut self) -> Option<Session> {
        let layout = self.laying_out.advance(&self.train)?;
        let mending = layout.mending();
        let mut session = Session::of(self.train.clone(), layout);
        session.mending = mending;
        Some(session)
    }
}

impl Session {
    /// Opens a scenario with its first range applied or everything released, in one go.
    ///
    /// # Errors
    /// Every problem of the file.
    pub fn open(text: &str) -> Result<Self, Vec<Problem>> {
        let mut opening = Opening::of(text)?;
        loop {
            if let Some(session) = opening.advance() {
                return Ok(session);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::tests::scenarios;

    /// However many steps it takes, each is a small part of the way, and the end is the same.
    #[test]
    fn opening_in_steps_ends_where_opening_at_once_does() {
        const MANY: usize = 50;
        for (name, text) in scenarios() {
            let mut opening = Opening::of(&text).ok();
            let mut steps = 0;
            let stepped = opening.as_mut().and_then(|opening| {
                loop {
                    steps += 1;
                    if let Some(session) = opening.advance() {
                        return Some(session);
                    }
                }
            });
            let at_once = Session::open(&text).ok();
            let looks = [stepped, at_once]
                .map(|session| session.map(|session| format!("{:?}", session.layout())));
            assert!(looks[0].is_some() && looks[0] == looks[1], "{name}");
            assert!(steps > MANY, "{name}: {steps}");
        }
    }
}
