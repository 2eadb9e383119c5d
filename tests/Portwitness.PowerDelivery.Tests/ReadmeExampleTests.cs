using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.VendorDefined;
using Portwitness.Tests;

namespace Portwitness.PowerDelivery.Tests;

/// <summary>The tables in the library's README are made here, and checked to be those in the file.</summary>
public sealed class ReadmeExampleTests
{
    private const string Refresh = "PORTWITNESS_REFRESH_DOCS";
    private static readonly string Path = Repository.PathOf("src", "Portwitness.PowerDelivery", "README.md");
    private static readonly string TestFolder = Repository.PathOf("tests", "Portwitness.PowerDelivery.Tests");

    // What reads the objects or the data block of each message; the first one's test is named.
    private static readonly Dictionary<MessageKind, string[]> Readers = new()
    {
        [MessageKind.SourceCapabilities] = [nameof(SourcePowerObject)],
        [MessageKind.SinkCapabilities] = [nameof(SinkPowerObject)],
        [MessageKind.Request] = [nameof(RequestObject)],
        [MessageKind.EPRRequest] = [nameof(EprRequest)],
        [MessageKind.BIST] = [nameof(BistObject)],
        [MessageKind.BatteryStatus] = [nameof(BatteryStatusObject)],
        [MessageKind.Alert] = [nameof(AlertObject)],
        [MessageKind.GetCountryInfo] = [nameof(GetCountryInfoObject)],
        [MessageKind.EnterUSB] = [nameof(EnterUsbObject)],
        [MessageKind.EPRMode] = [nameof(EprModeObject)],
        [MessageKind.SourceInfo] = [nameof(SourceInfoObject)],
        [MessageKind.Revision] = [nameof(RevisionObject)],
        [MessageKind.VendorDefined] = [nameof(VendorDefinedView)],
        [MessageKind.SourceCapabilitiesExtended] = [nameof(SourceCapabilitiesExtendedBlock)],
        [MessageKind.Status] = [nameof(StatusBlock), nameof(CablePlugStatusBlock)],
        [MessageKind.GetBatteryCap] = [nameof(BatteryReferenceBlock)],
        [MessageKind.GetBatteryStatus] = [nameof(BatteryReferenceBlock)],
        [MessageKind.BatteryCapabilities] = [nameof(BatteryCapabilitiesBlock)],
        [MessageKind.GetManufacturerInfo] = [nameof(GetManufacturerInfoBlock)],
        [MessageKind.ManufacturerInfo] = [nameof(ManufacturerInfoBlock)],
        [MessageKind.SecurityRequest] = [nameof(OpaqueBlock)],
        [MessageKind.SecurityResponse] = [nameof(OpaqueBlock)],
        [MessageKind.FirmwareUpdateRequest] = [nameof(OpaqueBlock)],
        [MessageKind.FirmwareUpdateResponse] = [nameof(OpaqueBlock)],
        [MessageKind.PPSStatus] = [nameof(PpsStatusBlock)],
        [MessageKind.CountryInfo] = [nameof(CountryInfoBlock)],
        [MessageKind.CountryCodes] = [nameof(CountryCodesBlock)],
        [MessageKind.SinkCapabilitiesExtended] = [nameof(SinkCapabilitiesExtendedBlock)],
        [MessageKind.ExtendedControl] = [nameof(ExtendedControlBlock)],
        [MessageKind.EPRSourceCapabilities] = [nameof(EprCapabilitiesBlock), nameof(SourcePowerObject)],
        [MessageKind.EPRSinkCapabilities] = [nameof(EprCapabilitiesBlock), nameof(SinkPowerObject)],
        [MessageKind.VendorDefinedExtended] = [nameof(VendorDefinedExtendedBlock)],
    };

    [Fact]
    public void MessageTable_IsUpToDate() => Check("messages", MessageTable());

    [Fact]
    public void LayoutTable_IsUpToDate() => Check("layouts", LayoutTable());

    [Fact]
    public void TimingTable_IsUpToDate() => Check("timing", TimingTable());

    [Fact]
    public void FoldersOfTheLibrary_AreAllDescribed()
    {
        string text = File.ReadAllText(Path);
        IEnumerable<string> folders = Directory.GetDirectories(System.IO.Path.GetDirectoryName(Path)!)
            .Select(folder => System.IO.Path.GetFileName(folder)!).Where(name => name is not ("bin" or "obj"));
        folders.Should().OnlyContain(name => text.Contains($"| `{name}/` |"));
    }

    // A block's layout that no message leads to would never be used.
    [Fact]
    public void EveryMessageWithABlock_HasItsLayout() =>
        Readers.Keys.Where(kind => kind.Class == MessageClass.Extended)
            .Should().OnlyContain(kind => BlockLayouts.For(kind, SopKind.Sop) != null);

    private static void Check(string name, string table)
    {
        string begin = $"<!-- {name}: begin -->";
        string text = File.ReadAllText(Path);
        int from = text.IndexOf(begin, StringComparison.Ordinal);
        int to = text.IndexOf($"<!-- {name}: end -->", StringComparison.Ordinal);
        from.Should().BePositive();
        string wanted = text[..from] + begin + "\n" + table + text[to..];
        if (Environment.GetEnvironmentVariable(Refresh) == "1")
        {
            File.WriteAllText(Path, wanted);
        }

        File.ReadAllText(Path).Should().Be(
            wanted, $"the table is generated; refresh it: {Refresh}=1 dotnet test tests/Portwitness.PowerDelivery.Tests");
    }

    private static string MessageTable()
    {
        StringBuilder table = new("| class | code | message | read by | tested in |\n| --- | --- | --- | --- | --- |\n");
        foreach (MessageClass messageClass in Enum.GetValues<MessageClass>())
        {
            for (int code = 0; code <= 31; code++)
            {
                MessageKind kind = new(messageClass, code);
                if (!kind.IsReserved)
                {
                    bool hasContent = messageClass != MessageClass.Control;
                    Readers.ContainsKey(kind).Should().Be(hasContent, $"{kind} needs a class that reads it");
                    string readers = hasContent ? string.Join(", ", Readers[kind]) : "–";
                    string test = TestOf(hasContent ? Readers[kind][0] : nameof(MessageKind));
                    table.Append($"| {messageClass} | 0x{code:X2} | {kind.Name} | {readers} | {test} |\n");
                }
            }
        }

        return table.ToString();
    }

    private static string LayoutTable()
    {
        StringBuilder table = new("| layout | source | described in | tested in |\n| --- | --- | --- | --- |\n");
        IEnumerable<(string Name, string Clause, Type Owner)> words = Owners<BitLayout>().Select(o => (o.Layout.Name, o.Layout.Clause, o.Owner));
        IEnumerable<(string Name, string Clause, Type Owner)> blocks = Owners<BlockLayout>().Select(o => (o.Layout.Name, o.Layout.Clause, o.Owner));
        foreach ((string name, string clause, Type owner) in words.OrderBy(IndexOf).Concat(blocks.OrderBy(IndexOf)))
        {
            table.Append($"| {name} | {clause} | {owner.Name} | {TestOf(owner.Name)} |\n");
        }

        return table.ToString();
    }

    private static string TimingTable()
    {
        StringBuilder table = new("| parameter | min | nom | max | measured | editions | confirmed in | by |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n");
        foreach (TimingLimit row in TimingLimits.All)
        {
            table.Append($"| {row.Name} | {Time(row.MinUs)} | {Time(row.NomUs)} | {Time(row.MaxUs)} | {row.Measured} | {row.Editions.ToText()} "
                + $"| {(row.Confirmed == Editions.None ? "none" : row.Confirmed.ToText())} | {row.Clause} |\n");
        }

        return table.ToString();
    }

    private static string Time(long? us) => us switch
    {
        null => "–",
        < 10_000 and not 0 => $"{us} µs",
        < 10_000_000 => $"{us / 1000} ms",
        _ => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{us / 1_000_000m:0.#} s"),
    };

    private static int IndexOf((string Name, string Clause, Type Owner) row) =>
        Array.IndexOf([.. BitLayouts.All.Select(layout => layout.Name), .. BlockLayouts.All.Select(layout => layout.Name)], row.Name);

    private static IEnumerable<(T Layout, Type Owner)> Owners<T>() => typeof(BitLayout).Assembly.GetExportedTypes()
        .SelectMany(type => type.GetProperties(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly))
        .Where(property => property.PropertyType == typeof(T))
        .Select(property => ((T)property.GetValue(null)!, property.DeclaringType!));

    /// <summary>
    /// The test file that speaks most of a class, one in the folder of the class before others; words that only WireTypes
    /// lists are tested by WireTypeTests.
    /// </summary>
    private static string TestOf(string className)
    {
        string folder = typeof(BitLayout).Assembly.GetExportedTypes().Single(type => type.Name == className).Namespace!.Split('.')[^1];
        Regex mention = new($@"\b{className}\b");
        string[] files = Directory.GetFiles(TestFolder, "*.cs", SearchOption.AllDirectories);
        string? own = files.Where(file => file.EndsWith("Tests.cs", StringComparison.Ordinal) && !file.EndsWith("ReadmeExampleTests.cs", StringComparison.Ordinal))
            .Select(file => (File: file, Count: mention.Count(File.ReadAllText(file))))
            .Where(found => found.Count > 0)
            .OrderByDescending(found => System.IO.Path.GetFileName(System.IO.Path.GetDirectoryName(found.File)) == folder)
            .ThenByDescending(found => found.Count).ThenBy(found => found.File, StringComparer.Ordinal)
            .Select(found => found.File).FirstOrDefault();
        bool isSwept = files.Any(file => System.IO.Path.GetFileName(file).StartsWith("WireTypes.", StringComparison.Ordinal)
            && mention.IsMatch(File.ReadAllText(file)));
        (own is not null || isSwept).Should().BeTrue($"{className} needs tests");
        return own is null ? "WireTypeTests.cs" : System.IO.Path.GetRelativePath(TestFolder, own);
    }
}
