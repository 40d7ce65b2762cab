package year

// FiguresHeader is what the tests of this package see besides.
var PartsHeader, PairsHeader = partsHeader, pairsHeader
