//! Lessons as packages for course systems: made on the page, unpacked, and run.

mod careless;
mod contents;
mod engines;
mod making;
mod reopened;
mod runtime;
mod scorm;
mod statements;
