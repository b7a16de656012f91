// Package units holds exact quantities with a unit: reading them as people
// write them, converting them exactly, and rounding them to measures a kitchen
// has.
package units
