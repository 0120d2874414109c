//! The page in a real browser: what the browser tests and the page's benchmark share.
//!
//! [`page::open`] is the way in: it serves the built site under a sub-path, takes a browser that no other
//! test has at the time, hands the test a [`Page`] in it, and afterwards takes everything down again. Whatever goes wrong
//! in the page unasked (an error, a warning of the security policy) fails the test.

mod driver;
mod environment;
mod host;
mod input;
mod other;
pub mod own_site;
mod pack;
pub mod page;
mod paper;
mod pool;
mod seen;
mod session;
mod shots;
mod view;

pub use environment::{SKIP, required, skipped};
pub use input::{Device, Key};
pub use other::Other;
pub use pack::Pack;
pub use page::Page;
pub use seen::{Canvas, Seen};
pub use view::View;
