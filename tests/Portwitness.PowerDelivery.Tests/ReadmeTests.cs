using System.Text;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.VendorDefined;
using Portwitness.Tests;

namespace Portwitness.PowerDelivery.Tests;

/// <summary>The table of messages in the library's README is made here, and checked to be the one in the file.</summary>
public sealed class ReadmeTests
{
    private const string Begin = "<!-- messages: begin -->";
    private const string End = "<!-- messages: end -->";
    private const string Refresh = "PORTWITNESS_REFRESH_DOCS";
    private static readonly string Path = Repository.PathOf("src", "Portwitness.PowerDelivery", "README.md");

    private static readonly Dictionary<MessageKind, string> Objects = new()
    {
        [MessageKind.SourceCapabilities] = nameof(SourcePowerObject),
        [MessageKind.EPRSourceCapabilities] = nameof(SourcePowerObject),
        [MessageKind.SinkCapabilities] = nameof(SinkPowerObject),
        [MessageKind.EPRSinkCapabilities] = nameof(SinkPowerObject),
        [MessageKind.Request] = nameof(RequestObject),
        [MessageKind.EPRRequest] = $"{nameof(RequestObject)}, {nameof(SourcePowerObject)}",
        [MessageKind.BIST] = nameof(BistObject),
        [MessageKind.BatteryStatus] = nameof(BatteryStatusObject),
        [MessageKind.Alert] = nameof(AlertObject),
        [MessageKind.EnterUSB] = nameof(EnterUsbObject),
        [MessageKind.EPRMode] = nameof(EprModeObject),
        [MessageKind.SourceInfo] = nameof(SourceInfoObject),
        [MessageKind.Revision] = nameof(RevisionObject),
        [MessageKind.VendorDefined] = $"{nameof(VdmHeader)}, {nameof(IdHeader)}, {nameof(PassiveCableVdo)} …",
    };

    private static readonly Dictionary<string, string> Tests = new()
    {
        [nameof(SourcePowerObject)] = "PowerData/PowerObjectTests.cs",
        [nameof(SinkPowerObject)] = "PowerData/PowerObjectTests.cs",
        [nameof(RequestObject)] = "Requests/RequestTests.cs",
        [nameof(VdmHeader)] = "VendorDefined/IdentityTests.cs",
        [nameof(AlertObject)] = "WireTypeTests.cs",
        [nameof(SourceInfoObject)] = "WireTypeTests.cs",
        [nameof(EnterUsbObject)] = "WireTypeTests.cs",
    };

    [Fact]
    public void MessageTable_IsUpToDate()
    {
        string text = File.ReadAllText(Path);
        int begin = text.IndexOf(Begin, StringComparison.Ordinal);
        int end = text.IndexOf(End, StringComparison.Ordinal);
        begin.Should().BePositive();
        string wanted = text[..begin] + Begin + "\n" + Table() + text[end..];
        if (Environment.GetEnvironmentVariable(Refresh) == "1")
        {
            File.WriteAllText(Path, wanted);
        }

        File.ReadAllText(Path).Should().Be(
            wanted, $"the table is generated; refresh it: {Refresh}=1 dotnet test tests/Portwitness.PowerDelivery.Tests");
    }

    [Fact]
    public void FoldersOfTheLibrary_AreAllDescribed()
    {
        string text = File.ReadAllText(Path);
        IEnumerable<string> folders = Directory.GetDirectories(System.IO.Path.GetDirectoryName(Path)!)
            .Select(folder => System.IO.Path.GetFileName(folder)!).Where(name => name is not ("bin" or "obj"));
        folders.Should().OnlyContain(name => text.Contains($"| `{name}/` |"));
    }

    private static string Table()
    {
        StringBuilder table = new();
        table.Append("| class | code | message | objects read as | tested in |\n| --- | --- | --- | --- | --- |\n");
        foreach (MessageClass messageClass in Enum.GetValues<MessageClass>())
        {
            for (int code = 0; code <= 31; code++)
            {
                MessageKind kind = new(messageClass, code);
                if (!kind.IsReserved)
                {
                    string objects = Objects.GetValueOrDefault(kind, "–");
                    table.Append($"| {messageClass} | 0x{code:X2} | {kind.Name} | {objects} | {TestOf(objects)} |\n");
                }
            }
        }

        return table.ToString();
    }

    private static string TestOf(string objects)
    {
        string test = objects == "–"
            ? "Messages/MessageKindTests.cs"
            : Tests.GetValueOrDefault(objects.Split(',')[0], "Messages/SmallObjectTests.cs");
        File.Exists(Repository.PathOf("tests", "Portwitness.PowerDelivery.Tests", test)).Should().BeTrue(test);
        return test;
    }
}
