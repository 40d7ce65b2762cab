package timing

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// WayName names a way, or what a weighing comes to.
type WayName string

// The two ways, and what else a weighing comes to.
const (
	SawNow   WayName = "saw_now"
	DryWhole WayName = "dry_whole"
	TossUp   WayName = "equivalent" // nothing tells them apart
	TradeOff WayName = "trade_off"  // one is sooner, the other gives more or is safer
	NoWay    WayName = "neither"    // no way ends within the forecast, or gives a set
)

// ReasonKind is what a reason speaks of.
type ReasonKind string

// Kinds of reason.
const (
	ReasonReady     ReasonKind = "ready"     // the billet is within the limits to resaw today
	ReasonNeither   ReasonKind = "neither"   // neither way ends within the forecast
	ReasonNoSet     ReasonKind = "no_set"    // neither way gives a set
	ReasonNotReady  ReasonKind = "not_ready" // the leaves of Way are not ready within it
	ReasonNotKept   ReasonKind = "not_kept"  // those of Way are ready now and then, and stay so only with Probability
	ReasonOverlap   ReasonKind = "overlap"   // the dates overlap within their bands
	ReasonSooner    ReasonKind = "sooner"    // Way is, by Days
	ReasonSameSets  ReasonKind = "same_sets" // both give Sets
	ReasonMoreSets  ReasonKind = "more_sets" // Way gives Sets and not Others
	ReasonOnly      ReasonKind = "only"      // that decides: Way gives Sets, and the other none
	ReasonCup       ReasonKind = "cup"       // Leaf of Way may cup by Cup, more than its Room
	ReasonMayCup    ReasonKind = "may_cup"   // Leaf of Way cups by more than its Room with Probability, by Cup at most
	ReasonAllowance ReasonKind = "allowance" // that decides: at the thickness at which all leaves come flat, Cup, Way gives Sets, and the other at Room Others
	ReasonLost      ReasonKind = "lost"      // that decides: the leaves of Way lack Cup of their finished thickness, Room
	ReasonChecks    ReasonKind = "checks"    // the faces of Way dry faster than the wood safely takes
)

// Reason is one reason for or against a way.
type Reason struct {
	Kind         ReasonKind
	Way          WayName // that it speaks of
	Days         float64
	Sets, Others int
	Leaf         int
	Cup, Room    quantity.Length
	Probability  float64
	Bent         bool // Sets and Others are without those that will not come flat
}

// Advised is which way to go, and why; every reason is told, also those against.
type Advised struct {
	Way     WayName
	Reasons []Reason
}

// RiskKind is what may go wrong on a way, all common practice, no source.
type RiskKind string

// Kinds of risk.
const (
	RiskSurfaceChecks RiskKind = "surface_checks" // moderate or high, as the checks of the way say
	RiskDefect        RiskKind = "defect"         // Defect spoils the wood inside, as it is dried
	RiskSettle        RiskKind = "settle"         // leaves of a billet that is ready need only settle
	RiskThinLeaves    RiskKind = "thin_leaves"    // thin leaves cup, twist and check on their own
	RiskCommitted     RiskKind = "committed"      // figure and defects are not known yet
	RiskApart         RiskKind = "apart"          // shell and core are: the cut pinches and leaves curl
	RiskThickChecks   RiskKind = "thick_checks"   // a refractory wood, thick
	RiskLeavesCheck   RiskKind = "leaves_check"   // a refractory wood, in leaves
	RiskEasyWood      RiskKind = "easy_wood"      // none to speak of
	RiskUnknownWood   RiskKind = "unknown_wood"   // nothing is known of how the wood takes drying
	RiskStress        RiskKind = "stress"         // a billet dried too fast springs when it is sawn
	RiskCasehardened  RiskKind = "casehardened"   // prongs turned inward
	RiskReversed      RiskKind = "reversed"       // prongs turned outward
	RiskEnds          RiskKind = "ends"           // nothing was told of the ends
)

// Risk is one of them.
type Risk struct {
	Kind   RiskKind
	Points float64 // between shell and core, of RiskApart, %MC
	Defect *seasoning.Defect
}
