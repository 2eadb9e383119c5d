using System.Collections.Immutable;
using Portwitness.Product.Controllers;
using Portwitness.Product.Parts;
using Portwitness.Product.Teardown;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "teardown:" of a product file. What has a node and ratings is a part that is judged, too.</summary>
internal sealed class TeardownReader(YamlValues values)
{
    private const int MaxEntries = 1_000;
    private const int MaxCount = 10_000;

    private static readonly string[] Own =
        ["ref", "function", "marking", "maker", "package", "count", "photo", "identified", "board", "side", "searched", "source"];

    /// <summary>The members of an entry.</summary>
    internal static readonly string[] Members = [.. Own, .. PartsReader.Members.Where(static member => member != "part")];

    /// <summary>How something is identified.</summary>
    internal static readonly string[] Identifications = ["read", "datasheet", "inferred"];

    private readonly List<ProductPart> _parts = [];
    private readonly List<ProductController> _controllers = [];

    /// <summary>The product with its ledger, and with the parts of it that can be judged and that "parts:" does not have.</summary>
    public ProductFile Read(ProductFile product, YamlNode node)
    {
        ImmutableArray<LedgerEntry> entries = [.. values.Items(node, "teardown", MaxEntries).Select(Entry).OfType<LedgerEntry>()];
        return product with { Teardown = entries, LedgerParts = [.. _parts], LedgerControllers = [.. _controllers] };
    }

    private LedgerEntry? Entry(YamlNode node)
    {
        LedgerEntry entry = new();
        List<(YamlText Key, YamlNode Value)> ratings = [];
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "teardown"))
        {
            if (Array.IndexOf(Own, key.Text) >= 0)
            {
                entry = With(entry, key.Text, value);
            }
            else if (Array.IndexOf(Members, key.Text) >= 0)
            {
                ratings.Add((key, value));
            }
            else
            {
                values.Unknown(key, "a line of a teardown", Members);
            }
        }

        if (entry.IsSearch ? entry.Function.Length == 0 : entry is { Ref: "", Function: "", Marking: "" })
        {
            values.Fault(
                node, ProductFaultCodes.ValueWrong,
                "a line of a teardown needs \"ref:\", \"function:\" or \"marking:\", as {ref: Q3, function: switch, marking: A1SH, identified: read}; "
                    + "{function: tvs, searched: true} says that no further one was found");
            return null;
        }

        Judge(node, entry, ratings);
        IEnumerable<string> written = ratings.Where(static one => one.Key.Text != "kind").Select(static one => $"{one.Key.Text} {Written(one.Value)}");
        return entry with { Ratings = string.Join(", ", written) };
    }

    private void Judge(YamlNode node, LedgerEntry entry, List<(YamlText Key, YamlNode Value)> ratings)
    {
        bool isController = ratings.Exists(static one => one is { Key.Text: "kind", Value: YamlText { Text: "controller" } });
        if (!isController && !ratings.Exists(static one => one.Key.Text == "node"))
        {
            return;
        }

        YamlText Word(string text) => new(node.Line, node.Column, text);
        if (!ratings.Exists(static one => one.Key.Text == "kind") && Array.IndexOf(PartsReader.Kinds, entry.Function) >= 0)
        {
            ratings.Insert(0, (Word("kind"), Word(entry.Function)));
        }

        string name = entry.Ref.Length > 0 ? entry.Ref : entry.Function.Length > 0 ? entry.Function : entry.Marking;
        YamlMap written = new(node.Line, node.Column, [(Word("part"), Word(name)), .. ratings]);
        (ProductPart? part, ProductController? controller) = new PartsReader(values).ReadOne(written);
        if (part is not null)
        {
            _parts.Add(part with { IsOfLedger = true, IsInferred = entry.Identified == Identification.Inferred });
        }

        // What a controller does that was not identified nobody knows.
        if (controller is not null && entry.Identified != Identification.Inferred)
        {
            _controllers.Add(controller);
        }
    }

    private LedgerEntry With(LedgerEntry entry, string member, YamlNode value) => member switch
    {
        "ref" => entry with { Ref = Text(value, member) },
        "function" => entry with { Function = Text(value, member) },
        "marking" => entry with { Marking = Text(value, member) },
        "maker" => entry with { Maker = Text(value, member) },
        "package" => entry with { Package = Text(value, member) },
        "photo" => entry with { Photo = Text(value, member) },
        "board" => entry with { Board = Text(value, member) },
        "side" => entry with { Side = Text(value, member) },
        "source" => entry with { Source = Text(value, member) },
        "count" => entry with { Count = values.Number(value, member, 1, MaxCount, 0) ?? 1 },
        "searched" => entry with { IsSearch = values.Truth(value, member) == true },
        "identified" => entry with { Identified = Identified(value) },
        _ => entry,
    };

    private string Text(YamlNode node, string member) => values.Text(node, member)?.Trim() ?? "";

    private Identification Identified(YamlNode node)
    {
        int index = Array.IndexOf(Identifications, values.Text(node, "identified"));
        if (index < 0)
        {
            values.Fault(node, ProductFaultCodes.ValueWrong, "\"identified:\" is read, datasheet or inferred");
        }

        return (Identification)(index + 1);
    }

    private static string Written(YamlNode node) => node switch
    {
        YamlText text => text.Text,
        YamlList list => string.Join(" ", list.Items.OfType<YamlText>().Select(static item => item.Text)),
        _ => "",
    };
}
