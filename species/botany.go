package species

import "slices"

// conifers are the genera of conifers, and the yews with them: the tables group imported
// woods by where they grow, which says nothing of what they are. All genera that are sawn,
// whether these tables hold a wood of them or not. General botany.
var conifers = []string{
	"Abies", "Cedrus", "Keteleeria", "Larix", "Picea", "Pinus", "Pseudolarix", "Pseudotsuga", "Tsuga", // Pinaceae
	"Agathis", "Araucaria", "Wollemia", // Araucariaceae
	"Athrotaxis", "Austrocedrus", "Callitris", "Callitropsis", "Calocedrus", "Chamaecyparis", "Cryptomeria", "Cunninghamia",
	"Cupressus", "Fitzroya", "Fokienia", "Glyptostrobus", "Hesperocyparis", "Juniperus", "Libocedrus", "Metasequoia",
	"Papuacedrus", "Pilgerodendron", "Platycladus", "Sequoia", "Sequoiadendron", "Taiwania", "Taxodium", "Tetraclinis",
	"Thuja", "Thujopsis", "Widdringtonia", "Xanthocyparis", // Cupressaceae
	"Afrocarpus", "Dacrycarpus", "Dacrydium", "Falcatifolium", "Halocarpus", "Lagarostrobos", "Lepidothamnus", "Manoao",
	"Nageia", "Phyllocladus", "Podocarpus", "Prumnopitys", "Retrophyllum", "Saxegothaea", "Sundacarpus", // Podocarpaceae
	"Sciadopitys",                      // Sciadopityaceae
	"Cephalotaxus", "Taxus", "Torreya", // Taxaceae
}

// Botany returns Hardwood for a broadleaved wood and Softwood for a conifer, wherever it
// grows.
func (w *Wood) Botany() Group {
	if slices.Contains(conifers, genusOf(w)) {
		return Softwood
	}
	return Hardwood
}
