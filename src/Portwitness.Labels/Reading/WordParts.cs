using System.Collections.Frozen;

namespace Portwitness.Labels;

/// <summary>
/// The meaning of words that are not listed, from their parts: German compounds ("Gesamtausgangsleistung") and headings of several words
/// ("Énergie totale"). Each part is listed in Words/*.parts; a word with a part that is not means nothing.
/// </summary>
internal static class WordParts
{
    private const int ShortestCompound = 6;
    private const int LongestPart = 16;
    private const int ShortestPart = 2;

    // "Doppelanschlussausgang" has three; more than this is no word of a label.
    private const int MaxParts = 5;

    private const Part Counted = Part.Alone | Part.Two | Part.Three | Part.Four | Part.Together;

    private static readonly FrozenDictionary<string, Part>.AlternateLookup<ReadOnlySpan<char>> Parts = Index();

    // Between the parts of a compound, and at its end.
    private static readonly string[] Joints = ["", "s", "-", "n", "en", "e"];
    private static readonly string[] Endings = ["", "e", "en", "er", "es", "em", "n", "s"];

    /// <summary>What a word or phrase means, listed or made of parts.</summary>
    public static Term Find(ReadOnlySpan<char> phrase) => Vocabulary.Find(phrase) is not Term.None and var term ? term : OfCompound(phrase);

    /// <summary>What a compound means; <see cref="Term.None"/> when a part of it is not known.</summary>
    public static Term OfCompound(ReadOnlySpan<char> word)
    {
        if (word.Length is < ShortestCompound or > 40)
        {
            return Term.None;
        }

        Span<char> small = stackalloc char[word.Length];
        word.ToLowerInvariant(small);
        return Decompose(small, MaxParts) is { } parts ? Compose(parts) : Term.None;
    }

    /// <summary>What one word of a heading adds to it; <see cref="Part.None"/> when that is not known.</summary>
    public static Part OfWord(ReadOnlySpan<char> word)
    {
        if (word.Length is 0 or > 40)
        {
            return Part.None;
        }

        Span<char> small = stackalloc char[word.Length];
        word.ToLowerInvariant(small);
        ReadOnlySpan<char> rest = small;
        if (rest is [>= 'a' and <= 'z', '\'', _, ..])
        {
            // "d'entrée", "l'accumulatore".
            rest = rest[2..];
        }

        return Parts.TryGetValue(rest, out Part part) ? part : rest.Length < ShortestCompound ? Part.None : Decompose(rest, MaxParts) ?? Part.None;
    }

    /// <summary>What a heading of these parts says; <see cref="Term.None"/> when they make no sense together.</summary>
    public static Term Compose(Part parts)
    {
        bool Has(Part any) => (parts & any) != 0;
        bool isInput = Has(Part.Input);
        if (Has(Part.Efficiency))
        {
            return Has(Part.LowLoad) ? Term.LowLoad : Has(Part.Conversion) || !Has(Part.Average | Part.Use) ? Term.Conversion : Term.Efficiency;
        }

        if (Has(Part.NoLoad))
        {
            return Has(Part.Power | Part.Consumption | Part.Input) ? Term.NoLoad : Term.None;
        }

        if (Has(Part.Consumption | Part.LowLoad | Part.Conversion | Part.Average) || (isInput && Has(Part.Output | Part.Total | Counted)))
        {
            return Term.None;
        }

        if (Has(Part.Capacity | Part.Energy | Part.Battery))
        {
            return OfBattery(parts);
        }

        if (Has(Part.Cable))
        {
            return Has(Part.Coil) ? Term.Cable : Term.None;
        }

        bool isPad = Has(Part.Pad) && (parts & ~(Part.Pad | Part.Value | Part.Charge | Part.Output)) == 0;
        if (Has(Part.Wireless) || isPad)
        {
            return isInput ? Term.None : Term.Wireless;
        }

        if (Has(Counted))
        {
            return Has(Part.Total | Part.Voltage) || !Has(Part.Use | Part.Port | Part.Output) ? Term.None
                : Has(Part.Together) ? Term.Together : Has(Part.Alone) ? Term.Alone : Has(Part.Two) ? Term.Two : Has(Part.Three) ? Term.Three : Term.Four;
        }

        return OfRating(parts);
    }

    private static Term OfRating(Part parts)
    {
        bool Has(Part any) => (parts & any) != 0;
        if (Has(Part.Total))
        {
            return Has(Part.Power | Part.Current | Part.Output) && !Has(Part.Voltage | Part.Frequency | Part.Mains) ? Term.Total : Term.None;
        }

        if (Has(Part.Input) || (Has(Part.Mains) && !Has(Part.Output)))
        {
            return Has(Part.Voltage | Part.Current | Part.Frequency | Part.Power | Part.Port | Part.Rated | Part.Charge | Part.Maximum | Part.Mains | Part.Value)
                ? Term.Input : Term.None;
        }

        if (Has(Part.Frequency) && Has(Part.Rated) && (parts & ~(Part.Frequency | Part.Rated)) == 0)
        {
            // What USB gives has none.
            return Term.Input;
        }

        bool isPower = Has(Part.Power) && !Has(Part.Voltage | Part.Current | Part.Port);
        if (Has(Part.Output))
        {
            return isPower ? Term.MaximumOutput : Has(Part.Voltage | Part.Current | Part.Port | Part.Rated | Part.Charge | Part.Maximum | Part.Mains | Part.Value) ? Term.Output : Term.None;
        }

        return isPower && Has(Part.Maximum | Part.Rated) && !Has(Part.Charge | Part.Pad) ? Term.MaximumOutput : Term.None;
    }

    private static Term OfBattery(Part parts)
    {
        bool Has(Part any) => (parts & any) != 0;
        return Has(Part.Input | Part.Frequency | Part.Wireless | Part.Cable | Part.Port | Part.Current | Part.Power | Counted | Part.Use | Part.Charge) ? Term.None
            : Has(Part.Voltage) ? (Has(Part.Output | Part.Total | Part.Maximum) ? Term.None : Term.NominalVoltage)
            : Has(Part.Capacity) ? (Has(Part.Usable | Part.Output) || (Has(Part.Rated) && !Has(Part.Battery)) ? Term.RatedCapacity : Term.Battery)
            : Has(Part.Energy) ? (Has(Part.Output) ? Term.None : Term.Energy)
            : Has(Part.Output) ? Term.None : Term.Battery;
    }

    // The longest first part whose rest is made of parts, too.
    private static Part? Decompose(ReadOnlySpan<char> word, int most)
    {
        for (int length = Math.Min(word.Length, LongestPart); most > 0 && length >= ShortestPart; length--)
        {
            if (!Parts.TryGetValue(word[..length], out Part part) || part == Part.Link)
            {
                continue;
            }

            ReadOnlySpan<char> rest = word[length..];
            if (rest.Length < 3 && Array.IndexOf(Endings, rest.ToString()) >= 0)
            {
                return part;
            }

            foreach (string joint in Joints)
            {
                if (rest.StartsWith(joint, StringComparison.Ordinal) && Decompose(rest[joint.Length..], most - 1) is { } behind)
                {
                    return part | behind;
                }
            }
        }

        return null;
    }

    private static FrozenDictionary<string, Part>.AlternateLookup<ReadOnlySpan<char>> Index()
    {
        Dictionary<string, Part> parts = [];
        foreach ((_, Part part, string word) in Table())
        {
            parts[word] = parts.GetValueOrDefault(word, part);
            parts.TryAdd(string.Concat(word.Select(Letters.WithoutAccent)), part);
        }

        return parts.ToFrozenDictionary().GetAlternateLookup<ReadOnlySpan<char>>();
    }

    /// <summary>All parts of all files.</summary>
    public static IEnumerable<(string File, Part Part, string Word)> Table()
    {
        Dictionary<string, Part> names = Enum.GetValues<Part>().ToDictionary(static part => Vocabulary.NameOf(part.ToString()));
        foreach ((string file, string name, string[] words) in Vocabulary.Rows(".parts"))
        {
            foreach (string word in words)
            {
                yield return (file, names[name], word);
            }
        }
    }
}
