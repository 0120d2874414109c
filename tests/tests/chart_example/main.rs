//! The chart example from outside: what it prints, as text and as JSON, and how it refuses.

mod operating;
mod printed;
mod program;
mod refusals;
mod strain;
