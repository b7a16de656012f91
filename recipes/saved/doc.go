// Package saved reads recipes as people have them: saved pages and feeds that
// carry a schema.org Recipe as JSON-LD, microdata or RDFa Lite; e-mails; and
// plain text, typed or pasted. It finds the lines of a recipe and what each
// of them is, and reads no amount: [Recipe] is text with roles, nothing more.
//
// A byte that its character set does not have is an error, never a character
// left out: half of "2½" is a wrong recipe.
package saved
