//! Browsers that one test takes over from another: starting one takes longer than many a test.
//!
//! A test has a tab of its own in it, with what goes with a tab (history, storage of the session, emulated
//! screens and networks, faults), and an address of its own, by which browsers keep all else apart. Should the
//! system hand out a port a second time, nothing is left there either.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};

use anyhow::Result;
use serde_json::json;
use url::Url;

use super::environment::Environment;
use super::session::Session;

/// Browsers that nobody has at the moment; they are closed with it.
#[derive(Default)]
pub(super) struct Pool {
    idle: Mutex<Vec<Session>>,
}

/// The pool of the tests that run now. With the last of them its browsers end: nothing else is certain to
/// happen before the whole program does.
static SHARED: Mutex<Weak<Pool>> = Mutex::new(Weak::new());

impl Pool {
    pub(super) fn shared() -> Arc<Self> {
        let mut shared = SHARED.lock().unwrap_or_else(PoisonError::into_inner);
        shared.upgrade().unwrap_or_else(|| {
            let pool = Arc::default();
            *shared = Arc::downgrade(&pool);
            pool
        })
    }

    /// A browser, with windows or without.
    pub(super) fn take(&self, in_window: bool) -> Result<Session> {
        let mut idle = self.idle();
        let fits = |session: &Session| session.is_in_window() == in_window;
        let found = idle.iter().position(fits).map(|at| idle.swap_remove(at));
        drop(idle);
        found.map_or_else(|| Session::start(&Environment::read()?, in_window), Ok)
    }

    /// Keeps a browser for another test; one in which that does not work is closed.
    pub(super) fn give_back(&self, session: Session, address: &str) {
        if forget(&session, address).is_ok() {
            self.idle().push(session);
        }
    }

    fn idle(&self) -> MutexGuard<'_, Vec<Session>> {
        self.idle.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Goes on in a new tab, and leaves nothing of an address.
fn forget(session: &Session, address: &str) -> Result<()> {
    session.start_afresh()?;
    let origin = Url::parse(address)?.origin().ascii_serialization();
    let all = json!({ "origin": origin, "storageTypes": "all" });
    session.cdp("Storage.clearDataForOrigin", all)?;
    session.cdp("Network.clearBrowserCache", json!({}))?;
    Ok(())
}
