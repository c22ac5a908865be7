// By which words, in several languages, it may be said that a machine must not run: what forbids, and the running that
// it forbids, a few words apart. In plain small letters, as `plain_words` writes them; many people leave out the ring
// or the two dots of a letter, so both ways stand here. From memory, and not whole: none can be.
#pragma once

#include <array>
#include <span>
#include <string_view>

namespace service::entry {

struct Forbidding {
  std::span<const std::string_view> forbids;
  std::span<const std::string_view> running;
};

namespace stop_phrases {

using View = std::string_view;

// By what nobody does, for `never runs` tells of a fault.
inline constexpr auto nobody = std::to_array<View>({"nobody", "no one", "noone"});
inline constexpr auto nobody_runs = std::to_array<View>({"runs", "starts", "rides", "moves", "touches", "running"});

inline constexpr auto parked = std::to_array<View>(
    {"keep it parked",  "keep this parked",  "keep her parked",   "keep him parked", "keep parked",
     "leave it parked", "leave this parked", "leave her parked",  "leave parked",    "stays parked",
     "stay parked",     "keep it standing",  "leave it standing", "keep it stopped", "leave it stopped",
     "off the road",    "off road until",    "parked until",      "parked till",     "parked up until",
     "parked up till",  "stands until",      "stands till"});

inline constexpr auto german =
    std::to_array<View>({"darf nicht", "duerfen nicht", "durfen nicht", "darf man nicht", "darf so nicht",
                         "darf jetzt nicht", "darf keiner", "darf niemand", "niemand", "keiner", "soll nicht",
                         "sollte nicht", "bitte nicht", "nicht mehr", "auf keinen fall"});
inline constexpr auto german_running = std::to_array<View>(
    {"laufen",    "fahren",     "faehrt",   "fahrt",   "gefahren", "benutzen",  "benutzt",     "verwenden",
     "verwendet", "nutzen",     "genutzt",  "starten", "startet",  "gestartet", "einschalten", "eingeschaltet",
     "anlassen",  "angelassen", "anmachen", "bewegen", "bewegt",   "betreiben", "betrieben",   "bedienen"});

inline constexpr auto dutch = std::to_array<View>({"mag niet", "mogen niet", "niemand", "niet meer", "moet niet"});
inline constexpr auto dutch_running =
    std::to_array<View>({"rijden", "rijdt", "gereden", "draaien", "gedraaid", "lopen", "gebruiken", "gebruikt",
                         "starten", "start", "gestart", "aanzetten"});

inline constexpr auto nordic =
    std::to_array<View>({"maa ikke", "ma ikke", "maa ingen", "ma ingen", "ingen maa", "ingen ma", "ingen", "skal ikke",
                         "ikke", "faar inte", "far inte", "faar ej", "far ej", "ska inte", "skall inte", "inte"});
inline constexpr auto nordic_running = std::to_array<View>(
    {"koere",    "kore",       "koeres",      "kores",      "koerer den", "korer den", "kjoere",     "kjore",
     "kjoeres",  "kjores",     "kjoerer den", "kjorer den", "bruge",      "bruges",    "bruger den", "bruke",
     "brukes",   "bruker den", "startes",     "koeras",     "koras",      "kora",      "koera",      "anvaendas",
     "anvandas", "anvaenda",   "anvanda",     "startas",    "koer den",   "kor den"});

inline constexpr auto french = std::to_array<View>({"ne doit pas", "ne doit plus", "ne doivent pas", "personne ne",
                                                    "ne pas", "ne plus", "interdit de", "interdiction de"});
inline constexpr auto french_running =
    std::to_array<View>({"utiliser", "utilise", "utilisee", "demarrer", "demarre", "demarree", "rouler", "roule",
                         "conduire", "conduit", "conduite", "tourner", "marcher", "circuler", "fonctionner"});

inline constexpr auto spanish = std::to_array<View>({"no debe", "no deben", "no se debe", "nadie", "prohibido"});
inline constexpr auto spanish_running =
    std::to_array<View>({"usar",       "usarse",    "use",      "usa",     "usarla",   "usarlo",   "utilizar",
                         "utilizarse", "utilice",   "arrancar", "arranca", "arranque", "conducir", "conduzca",
                         "conduce",    "funcionar", "circular", "mover",   "moverse",  "rodar"});

inline constexpr auto portuguese = std::to_array<View>({"nao deve", "nao se deve", "nao pode", "ninguem", "proibido"});
inline constexpr auto portuguese_running =
    std::to_array<View>({"usar", "usa", "use", "utilizar", "ligar", "liga", "ligue", "conduzir", "conduz", "andar",
                         "rodar", "funcionar", "circular", "usado", "usada", "ligado", "ligada"});

inline constexpr auto italian =
    std::to_array<View>({"non deve", "non devono", "non si deve", "non va", "nessuno", "vietato"});
inline constexpr auto italian_running = std::to_array<View>(
    {"usare", "usi", "usa", "usato", "usata", "utilizzare", "utilizzato", "utilizzata", "avviare", "avviato", "avviata",
     "guidare", "guidi", "guidato", "guidata", "girare", "funzionare", "circolare", "muovere"});

inline constexpr auto romanian = std::to_array<View>({"nu trebuie", "nu are voie", "nimeni nu", "nimeni sa nu"});
inline constexpr auto romanian_running =
    std::to_array<View>({"folosit", "folosita", "foloseste", "foloseasca", "pornit", "pornita", "porneste", "porneasca",
                         "condus", "conduce", "conduca", "mearga", "circule"});

inline constexpr auto polish =
    std::to_array<View>({"nie wolno", "nie moze", "nie powinien", "nie powinna", "nikt nie", "niech nikt nie"});
inline constexpr auto polish_running = std::to_array<View>(
    {"uzywac", "uzywa", "uruchamiac", "uruchamia", "wlaczac", "jezdzic", "jezdzi", "jechac", "pracowac"});

inline constexpr auto czech = std::to_array<View>({"nesmi", "nesmie", "nikdo", "nikto", "uz"});
inline constexpr auto czech_running =
    std::to_array<View>({"jet", "jezdit", "bezet", "bezat", "pouzivat", "nepouziva", "nepouzivat", "poustet",
                         "spoustet", "spustat", "nejezdi", "nejezdit"});

// Russian and Ukrainian.
inline constexpr auto russian = std::to_array<View>(
    {"\u043d\u0435\u043b\u044c\u0437\u044f", "\u043d\u0438\u043a\u043e\u043c\u0443", "\u043d\u0438\u043a\u0442\u043e",
     "\u043d\u0435", "\u043d\u0435 \u043c\u043e\u0436\u043d\u0430"});
inline constexpr auto russian_running = std::to_array<View>(
    {"\u0438\u0441\u043f\u043e\u043b\u044c\u0437\u043e\u0432\u0430\u0442\u044c",
     "\u0437\u0430\u043f\u0443\u0441\u043a\u0430\u0442\u044c", "\u0437\u0430\u0432\u043e\u0434\u0438\u0442\u044c",
     "\u0435\u0437\u0434\u0438\u0442\u044c", "\u0432\u043a\u043b\u044e\u0447\u0430\u0442\u044c",
     "\u044d\u043a\u0441\u043f\u043b\u0443\u0430\u0442\u0438\u0440\u043e\u0432\u0430\u0442\u044c",
     "\u0432\u0438\u043a\u043e\u0440\u0438\u0441\u0442\u043e\u0432\u0443\u0432\u0430\u0442\u0438",
     "\u0437\u0430\u043f\u0443\u0441\u043a\u0430\u0442\u0438"});

}  // namespace stop_phrases

inline constexpr auto forbiddings = std::to_array<Forbidding>({
    {stop_phrases::nobody, stop_phrases::nobody_runs},
    {stop_phrases::german, stop_phrases::german_running},
    {stop_phrases::dutch, stop_phrases::dutch_running},
    {stop_phrases::nordic, stop_phrases::nordic_running},
    {stop_phrases::french, stop_phrases::french_running},
    {stop_phrases::spanish, stop_phrases::spanish_running},
    {stop_phrases::portuguese, stop_phrases::portuguese_running},
    {stop_phrases::italian, stop_phrases::italian_running},
    {stop_phrases::romanian, stop_phrases::romanian_running},
    {stop_phrases::polish, stop_phrases::polish_running},
    {stop_phrases::czech, stop_phrases::czech_running},
    {stop_phrases::russian, stop_phrases::russian_running},
});

}  // namespace service::entry
