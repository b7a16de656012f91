package units

// Provenance is where a figure comes from: the publication, the place in it,
// and how the figure is known. Every row of every table has one.
type Provenance struct {
	Source string `yaml:"source"` // the publication, or [NoSource]
	Record string `yaml:"record"` // the table, page or food number in it; may be empty
	// KnownBy is "read" (in the publication), "memory" (recalled from it),
	// "computed", "practice" (common practice) or "given" (by the cook).
	KnownBy string `yaml:"known_by"`
}

// NoSource stands where a source would, for what everybody does and nobody
// publishes.
const NoSource = "common practice, no source"

// Practice is the provenance of common practice.
var Practice = Provenance{Source: NoSource, KnownBy: "practice"}

// String is the source with the record in it.
func (p Provenance) String() string {
	if p.Record == "" {
		return p.Source
	}
	return p.Source + ", " + p.Record
}

// Reason is one figure of an answer with where it comes from, for whoever asks
// why.
type Reason struct {
	Figure, Value string
	Provenance
}

// Why is a reason from a source without a record.
func Why(figure, value, source, knownBy string) Reason {
	return Reason{Figure: figure, Value: value, Provenance: Provenance{Source: source, KnownBy: knownBy}}
}
