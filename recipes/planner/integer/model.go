package integer

import "math/big"

// A Model is an integer program and what is wanted of it.
type Model struct {
	Columns []Column
	Rows    []Row
	Levels  []Level // the first comes before all others; none asks for any solution

	// Start is a solution to begin with, or nil when none is known.
	Start []int64

	// Repair, if set, changes a rounded point into one that is likelier to be
	// a solution. What it makes is checked like any other point.
	Repair func(x []int64)

	// Separate, if set, says which rows that every solution keeps are broken
	// at x; none means x is well. It is asked about points of the relaxation
	// (fractions, only near the true ones: rows that help, or none) and about
	// every candidate that keeps all rows written so far (whole numbers: a
	// candidate is a solution only if it returns no row that x breaks). For one
	// x it must always say the same.
	Separate func(x []float64) []Row
}

// MostValue is the largest value a column may take.
const MostValue = 1 << 20

// A Column is one whole-number unknown x with Least ≤ x ≤ Most, and with x = 0
// or x ≥ Batch (a semi-continuous unknown; 0 and 1 ask for nothing).
type Column struct {
	Least, Most int64 // 0 ≤ Least ≤ Most ≤ MostValue
	Batch       int64
	Rank        int // branched on only when no column of a lower rank asks for it
}

// A Term is Coef·x of one column.
type Term struct {
	Column int
	Coef   *big.Int
}

// Times is the term coef·x of a column.
func Times(coef int64, column int) Term { return Term{column, big.NewInt(coef)} }

func (t Term) equal(o Term) bool { return t.Column == o.Column && t.Coef.Cmp(o.Coef) == 0 }

// A Row says Σ Coef·x ≤ Limit. No column stands in it twice.
type Row struct {
	Terms []Term
	Limit *big.Int
}

// AtMost is the row Σ terms ≤ limit.
func AtMost(limit int64, terms ...Term) Row { return Row{terms, big.NewInt(limit)} }

// AtLeast is the row Σ terms ≥ limit, written as its negative.
func AtLeast(limit int64, terms ...Term) Row {
	r := Row{Limit: big.NewInt(-limit)}
	for _, t := range terms {
		r.Terms = append(r.Terms, Term{t.Column, new(big.Int).Neg(t.Coef)})
	}
	return r
}

// A Minimum is the least slack of its rows: min over them of Limit − Σ Coef·x.
type Minimum []Row

// A Level is one goal in the order of goals.
type Level struct {
	Goal  Goal
	Nodes int // the most nodes it may take; 0 means what is left of the limit
}

// A Goal is what a level makes as large as can be: [Linear], [Concave],
// [MaxMin] or [InOrder].
type Goal interface {
	// at is the goal's value at x.
	at(m *Model, x []int64) *big.Rat
	// check finds what is wrong with the goal in a model of so many columns.
	check(columns int) error
}

// Linear is the goal Σ Coef·x. With Enough set, more than that is worth
// nothing: later levels may give it up again.
type Linear struct {
	Terms  []Term
	Enough *big.Int
}

// Concave is the goal Σ_k min_i (Limit_ki − Σ Coef_ki·x), a sum of minima. With
// Whole set only whole multiples of it count: the value is rounded down to one.
type Concave struct {
	Minima []Minimum
	Whole  *big.Int
}

// MaxMin is the goal max t with x ≥ t·Weight for every share (max–min
// fairness). With OrZero a column may also be 0, and then counts for nothing;
// when all are, t is the largest Most ÷ Weight.
type MaxMin struct {
	Shares []Share
	OrZero bool
}

// A Share is a column's part in a [MaxMin] goal. Sign, where it is above 0, is a
// 0/1 column that is 1 wherever Column is not 0; with OrZero it lets the relaxation
// see what is asked of Column.
type Share struct {
	Column int
	Weight *big.Int // above 0
	Sign   int
}

// InOrder is the goal of more of the first column, then of the second, and so
// on. It is found by asking for one more until there is none, which is fast
// where earlier levels leave little choice. Its value is that of the column at
// which it stopped, else of the last.
type InOrder struct{ Columns []int }
