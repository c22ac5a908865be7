// The everyday words of several languages for the columns of a list of machines, for hours and for totals. All in plain
// letters, as `as_words` leaves them.
#include "entry/others_words.h"

#include <algorithm>
#include <array>

#include "service/taking_over.h"

namespace service {
namespace entry {
namespace {

struct Heading {
  TakenColumn column;
  std::string_view words;  // between bars
};

constexpr std::array headings{
    Heading{TakenColumn::machine,
            "|machine|machines|maschine|maschinen|maskine|maskin|maquina|macchina|short name|kurzname|kuerzel|kennung|"
            "key|code|"},
    Heading{
        TakenColumn::name,
        "|name|machine name|vehicle|equipment|asset|description|bezeichnung|beschreibung|geraet|fahrzeug|nom|"
        "designation|engin|materiel|nombre|equipo|vehiculo|nome|mezzo|descrizione|naam|werktuig|voertuig|navn|namn|"},
    Heading{TakenColumn::schedule,
            "|schedule|maintenance schedule|service schedule|wartungsplan|serviceplan|plan d entretien|"
            "plan de mantenimiento|piano di manutenzione|onderhoudsschema|vedligeholdelsesplan|underhaallsplan|"},
    Heading{TakenColumn::site,
            "|site|location|place|yard|farm|depot|base|standort|ort|hof|betrieb|lieu|emplacement|ferme|ubicacion|lugar|"
            "finca|sede|luogo|ubicazione|locatie|standplaats|plaats|sted|plads|plats|"},
    Heading{TakenColumn::serial,
            "|serial|serial no|serial nr|serial number|s n|chassis no|chassis number|vin|seriennummer|serien nr|"
            "seriennr|fahrgestellnummer|fahrgestell nr|fahrgestellnr|numero de serie|no de serie|n de serie|"
            "numero di serie|matricola|telaio|serienummer|serienr|chassisnummer|stelnummer|"},
    Heading{TakenColumn::in_service,
            "|in service|in service since|into service|put in service|commissioned|inbetriebnahme|in betrieb seit|"
            "mise en service|en service depuis|puesta en servicio|messa in servizio|ingebruikname|in gebruik sinds|"
            "ibrugtagning|i brug siden|i drift sedan|"},
    Heading{TakenColumn::in_service_at,
            "|in service at|hours in service|hours when new|stunden bei inbetriebnahme|heures a la mise en service|"},
    Heading{TakenColumn::bought,
            "|bought|bought on|date bought|purchased|purchase date|date of purchase|gekauft|gekauft am|kaufdatum|"
            "angeschafft|anschaffung|anschaffungsdatum|achat|date d achat|achete le|fecha de compra|comprado|"
            "data acquisto|data di acquisto|acquisto|aankoop|aankoopdatum|gekocht|koebt|koebsdato|koept|inkoepsdatum|"},
    Heading{
        TakenColumn::bought_at,
        "|bought at|hours when bought|hours at purchase|stunden bei kauf|stunden beim kauf|betriebsstunden bei kauf|"
        "heures a l achat|horas de compra|ore all acquisto|uren bij aankoop|timer ved koeb|timmar vid koep|"},
    Heading{TakenColumn::at,
            "|at|reading|meter|meter reading|hour meter|hours|hrs|h|engine hours|running hours|operating hours|"
            "current hours|stunden|std|bh|betriebsstunden|betriebs std|betr std|betr stunden|motorstunden|"
            "stundenzaehler|zaehler|zaehlerstand|stand|heures|heures moteur|compteur|horametre|horas|horas motor|"
            "horometro|ore|ore motore|ore lavoro|contaore|uren|draaiuren|urenteller|urenstand|timer|driftstimer|"
            "timetaeller|timmar|drifttimmar|gaangtimmar|"},
    Heading{TakenColumn::on,
            "|on|date|day|read on|reading date|date of reading|date read|datum|abgelesen|abgelesen am|ablesedatum|"
            "ablesung|stand am|stand vom|releve le|date de releve|date du releve|lu le|fecha|fecha de lectura|data|"
            "data lettura|rilevato il|afgelezen|afgelezen op|opgenomen op|dato|aflaest|avlaest|"},
    Heading{TakenColumn::per_year,
            "|per year|hours per year|hours a year|annual hours|h year|h a|pro jahr|stunden pro jahr|stunden im jahr|"
            "std jahr|h jahr|jahresstunden|par an|heures par an|heures an|h an|por ano|horas por ano|all anno|"
            "ore all anno|ore anno|per jaar|uren per jaar|om aaret|timer om aaret|per aar|timmar per aar|"},
    Heading{TakenColumn::notes,
            "|notes|note|remark|remarks|comment|comments|bemerkung|bemerkungen|notiz|notizen|anmerkung|anmerkungen|"
            "hinweis|kommentar|remarque|remarques|commentaire|commentaires|observations|notas|observaciones|"
            "osservazioni|opmerking|opmerkingen|bemaerkning|bemaerkninger|noter|anmaerkning|anteckningar|"},
};

constexpr std::string_view totals =
    "|total|totals|grand total|sub total|subtotal|sum|summe|zwischensumme|gesamt|gesamtsumme|insgesamt|somme|sous "
    "total|"
    "totale|totaal|totaux|suma|summa|i alt|all machines|alle maschinen|toutes les machines|todas las maquinas|"
    "tutte le macchine|alle maskiner|alla maskiner|";

constexpr std::string_view hours =
    "|h|hr|hrs|hour|hours|std|stunde|stunden|betriebsstunden|betr std|bh|heure|heures|hora|horas|ora|ore|uur|uren|time|"
    "timer|timme|timmar|";

constexpr std::string_view a_year =
    "|a year|a|year|yr|per year|p a|jahr|pro jahr|im jahr|an|par an|ano|por ano|anno|all anno|jaar|per jaar|aar|"
    "om aaret|per aar|";

constexpr std::string_view numbers_of_machines =
    "|id|no|nr|number|num|n|machine no|machine nr|machine number|machine id|fleet no|fleet number|unit no|unit number|"
    "inventory no|inventory number|nummer|maschinennummer|maschinen nr|masch nr|geraetenummer|geraete "
    "nr|inventarnummer|"
    "inventar nr|inv nr|numero|no inventaire|numero d inventaire|numero de inventario|numero inventario|maskinnummer|"
    "maskin nr|machinenummer|inventarisnummer|";

bool holds(std::string_view words, std::string_view word) {
  return !word.empty() && words.find('|' + std::string(word) + '|') != std::string_view::npos;
}

bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

std::string without_brackets(std::string_view text) {
  std::string out;
  char closes = 0;
  for (const char c : text) {
    if (closes == 0 && (c == '(' || c == '[')) {
      closes = c == '(' ? ')' : ']';
    } else if (closes == 0) {
      out += c;
    } else if (c == closes) {
      closes = 0;
      out += ' ';
    }
  }
  return closes == 0 ? out : std::string(text);  // never closed: no bracket to leave out
}

}  // namespace

std::string as_words(std::string_view text) {
  std::string words;
  for (const char c : in_plain_letters(text)) {
    if (is_letter_or_digit(c)) {
      words += c;
    } else if (!words.empty() && words.back() != ' ') {
      words += ' ';
    }
  }
  if (words.ends_with(' ')) words.pop_back();
  return words;
}

std::string heading_words(std::string_view heading) { return as_words(without_brackets(heading)); }

bool is_total_word(std::string_view words) { return holds(totals, words); }

bool is_number_of_machines(std::string_view words) { return holds(numbers_of_machines, words); }

bool is_hours(std::string_view words, bool per_year) {
  if (holds(hours, words)) return true;
  const std::size_t blank = words.find(' ');
  return per_year && blank != std::string_view::npos && holds(hours, words.substr(0, blank)) &&
         holds(a_year, words.substr(blank + 1));
}

bool stands_for_nothing(std::string_view text) {
  constexpr std::array<std::string_view, 8> signs{"-", "--", "?", "\u2013", "\u2014", "n/a", "n. a.", "k.A."};
  return std::find(signs.begin(), signs.end(), text) != signs.end();
}

}  // namespace entry

std::optional<TakenColumn> guess_column(std::string_view heading) {
  const std::string words = entry::heading_words(heading);
  for (const entry::Heading& one : entry::headings) {
    if (entry::holds(one.words, words)) return one.column;
  }
  return std::nullopt;
}

}  // namespace service
