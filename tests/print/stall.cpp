#include "print/stall.hpp"

namespace barrow::test {

std::vector<std::string> stall_options() {
    return {"--hourly-rate", "12.00", "--overheads",  "10%",
            "--margin",      "40%",   "--price-step", "0.50"};
}

void keep_stall(Shop& shop) {
    shop.import("supplier import",
                "code,name,lead_days\nPELL,Pellwether Papermakers,9\nHOB,Hob and Thimble,4\n");
    shop.import(
        "material import",
        "code,name,form,supplier,width,height,length,loops,bulk_unit,pack,pack_price,keep_from,"
        "trim_bottom,pattern,grain,reorder_at,hazard\n"
        "MOSS,Moss and fern,sheet,PELL,12in,12.5in,,,,6,5.40,80mm x 100mm,0.5in,one-way,,2,\n"
        "BOARD,Folding board,sheet,PELL,700mm,500mm,,,,10,8.50,100mm x 100mm,,none,height,4,\n"
        "RIB,Green ribbon,length,HOB,,,5m,,,1,3.20,25cm,,,,1,\n"
        "WIRE,Binding wire,wire,HOB,,,,23,,10,7.90,5,,,,,\n"
        "CLASP,\"Clasp, brass\",count,HOB,,,,,,12,7.20,,,,,6,small-parts\n"
        "INK,\"Alcohol ink, sepia\",bulk,HOB,,,,,ml,15 ml,4.20,,,,,5 ml,solvent\n");
    shop.import("receive --from", "date,material,packs,price,delivery,freight\n"
                                  "2027-01-12,MOSS,2,5.40,A,3.00\n"
                                  "2027-01-12,BOARD,1,8.50,A,\n"
                                  "2027-01-20,RIB,2,3.20,,\n"
                                  "2027-01-20,WIRE,1,7.90,,\n"
                                  "2027-01-20,CLASP,1,7.20,,\n"
                                  "2027-02-02,INK,2,4.20,,\n");
    shop.design("[design]\ncode = \"sail\"\nname = \"Sail journal\"\n"
                "[parameters]\npages = { usual = 8, whole = true, least = 4, most = 40 }\n"
                "[materials]\npaper = \"MOSS\"\nboard = \"BOARD\"\nribbon = \"RIB\"\n"
                "wire = \"WIRE\"\nclasp = \"CLASP\"\nink = \"INK\"\n"
                "[[part]]\nname = \"cover\"\nmaterial = \"board\"\nwidth = \"350 mm\"\n"
                "height = \"250 mm\"\ngrain = \"height\"\n"
                "[[part]]\nname = \"front paper\"\nmaterial = \"paper\"\nwidth = \"150 mm\"\n"
                "height = \"200 mm\"\n"
                "[[part]]\nname = \"tie\"\nmaterial = \"ribbon\"\nlength = \"60 cm\"\n"
                "[[part]]\nname = \"spine\"\nmaterial = \"wire\"\nloops = \"pages\"\n"
                "[[part]]\nname = \"closure\"\nmaterial = \"clasp\"\nnumber = \"1\"\n"
                "[[part]]\nname = \"edging\"\nmaterial = \"ink\"\namount = \"0.8 ml\"\n"
                "[[operation]]\nname = \"bind\"\nminutes = \"20 + pages\"\n");
}

void keep_fillers(Shop& shop) {
    shop.design("[design]\ncode = \"letter\"\nname = \"Folded letter\"\n"
                "[materials]\npaper = \"MOSS\"\nribbon = \"RIB\"\n"
                "[[part]]\nname = \"sheet\"\nmaterial = \"paper\"\nwidth = \"270 mm\"\n"
                "height = \"290 mm\"\n"
                "[[filler]]\nname = \"bookmark\"\nmaterial = \"paper\"\nwidth = \"45 mm\"\n"
                "height = \"100 mm\"\nworth = \"0.30\"\n"
                "[[filler]]\nname = \"corner\"\nmaterial = \"paper\"\nwidth = \"25 mm\"\n"
                "height = \"25 mm\"\nnumber = 14\nworth = \"0.01\"\n"
                "[[filler]]\nname = \"bow\"\nmaterial = \"ribbon\"\nlength = \"40 cm\"\n"
                "worth = \"0.40\"\n"
                "[[operation]]\nname = \"fold\"\nminutes = \"4\"\n");
}

} // namespace barrow::test
