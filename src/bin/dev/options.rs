//! What a person may write after `cargo serve`.

use anyhow::{Context, Result, bail};

/// What may follow `cargo serve`.
#[derive(Debug, Default, PartialEq)]
pub struct ServeOptions {
    /// The port to listen on; the usual or a free one if none is given.
    pub port: Option<u16>,
    /// Whether to show the page in a browser.
    pub open: bool,
}

impl ServeOptions {
    /// Reads the words after the command.
    pub fn parse(words: &[String]) -> Result<Self> {
        let mut options = Self::default();
        let mut words = words.iter();
        while let Some(word) = words.next() {
            match word.as_str() {
                "--open" => options.open = true,
                "--port" => {
                    let port = words.next().context("--port needs a number")?;
                    let port = port
                        .parse()
                        .with_context(|| format!("not a port: {port}"))?;
                    options.port = Some(port);
                }
                _ => bail!("not understood: {word}"),
            }
        }
        Ok(options)
    }
}

#[cfg(test)]
mod tests {
    use super::ServeOptions;

    fn parse(words: &[&str]) -> Result<ServeOptions, String> {
        let words: Vec<String> = words.iter().map(ToString::to_string).collect();
        ServeOptions::parse(&words).map_err(|error| format!("{error:#}"))
    }

    #[test]
    fn port_and_open_are_read_in_any_order() {
        let both = ServeOptions {
            port: Some(9000),
            open: true,
        };
        assert_eq!(parse(&["--open", "--port", "9000"]).as_ref(), Ok(&both));
        assert_eq!(parse(&["--port", "9000", "--open"]).as_ref(), Ok(&both));
    }

    #[test]
    fn a_bad_port_or_word_is_named() {
        assert!(parse(&["--port", "70000"]).is_err_and(|text| text.contains("70000")));
        assert!(parse(&["--port"]).is_err_and(|text| text.contains("needs a number")));
        assert!(parse(&["--prot"]).is_err_and(|text| text.contains("--prot")));
    }
}
