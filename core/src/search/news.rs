//! Finds as they are told again and again to somebody: most are those that were told before, and there may be thousands.

use std::sync::Arc;

use serde::Serialize;

use super::Search;
use super::front::order;
use super::measures::Find;
use super::report::FindReport;

/// Which finds somebody was told last.
#[derive(Default)]
pub struct Heard(Vec<Arc<Find>>);

/// A find of a list that takes the place of another one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum ListedFind {
    /// Where it stands in that.
    Before(usize),
    /// One that is not in that, without its ratios.
    New(FindReport),
}

impl Search {
    /// All finds so far, those first that are best in what counts first, for somebody who heard of some of them before.
    pub fn news(&self, heard: &mut Heard) -> Vec<ListedFind> {
        let stencils = self.stencils();
        // Both lists are in the same order.
        let mut known = heard.0.iter().enumerate().peekable();
        let listed = self.walk.front.finds().map(|find| {
            let is_same = |(_, other): &(usize, &Arc<Find>)| Arc::ptr_eq(other, find);
            while known
                .next_if(|known| !is_same(known) && order(&known.1.counts, &find.counts).is_le())
                .is_some()
            {}
            match known.next_if(is_same) {
                Some((at, _)) => ListedFind::Before(at),
                None => ListedFind::New(stencils.report(find)),
            }
        });
        let listed = listed.collect();
        heard.0 = self.walk.front.finds().cloned().collect();
        listed
    }
}
