//! Shared helpers of the external checks.
