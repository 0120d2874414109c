//! Lessons as packages for course systems: made on the page, unpacked, and run.

mod careless;
mod contents;
mod engines;
mod making;
mod runtime;
mod scorm;
mod statements;
