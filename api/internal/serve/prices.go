package serve

// Limits of a batch. Own choice: a thousand light items take some ten
// milliseconds, twenty heavy ones some ten seconds.
const (
	mostItems      = 1000
	mostHeavyItems = 20
)

// Prices, in units. A batch pays one unit for every ten items, beginning with
// the first, and the heavy ones among them pay on their own.
const (
	RequestCost  = 1
	HeavyCost    = 20
	itemsPerUnit = 10
)

// MinBurst is the smallest bucket: the dearest single request must fit into it.
const MinBurst = mostItems / itemsPerUnit
