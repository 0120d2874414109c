//! The catalogue of sentences: it is valid Fluent and says what the reference implementation of Fluent
//! says, every message is used, and no sentence stands anywhere else.

mod languages;
mod messages;
mod no_words;
mod said;
