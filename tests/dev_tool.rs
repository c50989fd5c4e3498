//! Tests of the build tool. Its parts are taken in as they lie, so that they run without the binding
//! generator, which is slow to build.

#[path = "../src/bin/dev/count.rs"]
mod count;

#[path = "../src/bin/dev/options.rs"]
mod options;

#[path = "../src/bin/dev/packed.rs"]
mod packed;

#[path = "../src/bin/dev/serve.rs"]
#[expect(
    dead_code,
    reason = "listening needs the built page, which the browser tests have"
)]
mod serve;

#[path = "../src/bin/dev/version.rs"]
mod version;
