//! Reads from the closing lines of the test runners how many tests ran.

use std::ops::AddAssign;

use serde_json::Value;

/// How many tests, or plain checks, went well and how many did not.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Count {
    pub passed: u64,
    pub failed: u64,
}

impl AddAssign for Count {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

/// `cargo test` closes every test binary with `test result: ok. 3 passed; 0 failed; ...`.
pub fn of_cargo(output: &str) -> Count {
    let mut count = Count::default();
    for line in output
        .lines()
        .filter_map(|line| line.strip_prefix("test result: "))
    {
        count += Count {
            passed: number_before(line, " passed"),
            failed: number_before(line, " failed"),
        };
    }
    count
}

/// Node's runner closes with one line each: `ℹ pass 3`, `ℹ fail 0`, `ℹ cancelled 0`.
pub fn of_node(output: &str) -> Count {
    let last = |word: &str| {
        let lines = output.lines().rev();
        let number = lines
            .filter_map(|line| {
                line.strip_prefix("ℹ ")?
                    .strip_prefix(word)?
                    .trim()
                    .parse()
                    .ok()
            })
            .next();
        number.unwrap_or(0)
    };
    Count {
        passed: last("pass "),
        failed: last("fail ") + last("cancelled "),
    }
}

/// The browser tests' results as JSON; one that passed only when tried again counts as failed.
pub fn of_browser(results: &str) -> Count {
    let results: Value = serde_json::from_str(results).unwrap_or_default();
    let number = |key: &str| results["stats"][key].as_u64().unwrap_or(0);
    Count {
        passed: number("expected"),
        failed: number("unexpected") + number("flaky"),
    }
}

fn number_before(line: &str, word: &str) -> u64 {
    let before = line.split(word).next().unwrap_or_default();
    let digits = before
        .rsplit(|letter: char| !letter.is_ascii_digit())
        .next()
        .unwrap_or_default();
    digits.parse().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::{Count, of_browser, of_cargo, of_node};

    #[test]
    fn cargo_binaries_add_up() {
        let output = "running 2 tests\n\
            test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.01s\n\
            noise\n\
            test result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\n";
        assert_eq!(
            of_cargo(output),
            Count {
                passed: 15,
                failed: 2
            }
        );
    }

    #[test]
    fn node_counts_failed_and_cancelled() {
        let output =
            "ℹ tests 7\nℹ suites 0\nℹ pass 4\nℹ fail 2\nℹ cancelled 1\nℹ skipped 0\nℹ todo 0\n";
        assert_eq!(
            of_node(output),
            Count {
                passed: 4,
                failed: 3
            }
        );
    }

    #[test]
    fn browser_results_count_flaky_as_failed() {
        let output = r#"{"stats": {"expected": 5, "unexpected": 1, "flaky": 1, "skipped": 0}}"#;
        assert_eq!(
            of_browser(output),
            Count {
                passed: 5,
                failed: 2
            }
        );
    }

    #[test]
    fn no_closing_line_counts_nothing() {
        assert_eq!(of_cargo("error: could not compile"), Count::default());
        assert_eq!(of_node("node: bad option"), Count::default());
        assert_eq!(of_browser(""), Count::default());
    }
}
