using System.Text;
using System.Text.Json;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Framing;
using Portwitness.Tests;

namespace Portwitness.Captures.Tests;

/// <summary>
/// The kernel's power-delivery class. Words: the check vectors in shared/vectors; names and units of attributes: the
/// kernel's Documentation/ABI/testing/sysfs-class-usb_power_delivery and the patch of October 2025 for SPR AVS.
/// </summary>
public class SysfsReaderTests
{
    private const string Five = "pd1/source-capabilities/1:fixed_supply/voltage:5000mV\npd1/source-capabilities/1:fixed_supply/maximum_current:3000mA\n";

    // The names of the vectors' fields, and of the kernel's attributes.
    private static readonly Dictionary<string, string> Attributes = new()
    {
        ["voltage_mv"] = "voltage", ["max_current_ma"] = "maximum_current", ["operational_current_ma"] = "operational_current",
        ["min_voltage_mv"] = "minimum_voltage", ["max_voltage_mv"] = "maximum_voltage", ["max_power_mw"] = "maximum_power",
        ["operational_power_mw"] = "operational_power", ["max_current_15v_ma"] = "maximum_current_9V_to_15V",
        ["max_current_20v_ma"] = "maximum_current_15V_to_20V", ["power_limited"] = "pps_power_limited",
        ["dual_role_power"] = "dual_role_power", ["usb_suspend_supported"] = "usb_suspend_supported",
        ["unconstrained_power"] = "unconstrained_power", ["usb_communications_capable"] = "usb_communication_capable",
        ["dual_role_data"] = "dual_role_data", ["unchunked_extended_messages"] = "unchunked_extended_messages_supported",
        ["higher_capability"] = "higher_capability", ["fast_role_swap_code"] = "fast_role_swap_current",
        ["peak_current_code"] = "peak_current",
    };

    // Every attribute of a type, with what a vector that does not mention it means; and the bits that they show
    // (R3.2v1.1, Tables 6.9 to 6.21).
    private static readonly Dictionary<string, (string Name, uint Known, string Fields)> Types = new()
    {
        ["fixed_source"] = ("fixed_supply", 0xFF3FFFFF, "voltage_mv max_current_ma dual_role_power usb_suspend_supported "
            + "unconstrained_power usb_communications_capable dual_role_data unchunked_extended_messages peak_current_code"),
        ["battery_source"] = ("battery", 0xFFFFFFFF, "min_voltage_mv max_voltage_mv max_power_mw"),
        ["variable_source"] = ("variable_supply", 0xFFFFFFFF, "min_voltage_mv max_voltage_mv max_current_ma"),
        ["pps_source"] = ("programmable_supply", 0xF9FEFF7F, "min_voltage_mv max_voltage_mv max_current_ma power_limited"),
        ["spr_avs_source"] = ("spr_adjustable_voltage_supply", 0xFC0FFFFF, "max_current_15v_ma max_current_20v_ma peak_current_code"),
        ["fixed_sink"] = ("fixed_supply", 0xFF8FFFFF, "voltage_mv operational_current_ma dual_role_power higher_capability "
            + "unconstrained_power usb_communications_capable dual_role_data fast_role_swap_code"),
        ["battery_sink"] = ("battery", 0xFFFFFFFF, "min_voltage_mv max_voltage_mv operational_power_mw"),
        ["variable_sink"] = ("variable_supply", 0xFFFFFFFF, "min_voltage_mv max_voltage_mv operational_current_ma"),
        ["pps_sink"] = ("programmable_supply", 0xF1FEFF7F, "min_voltage_mv max_voltage_mv max_current_ma"),
        ["spr_avs_sink"] = ("spr_adjustable_voltage_supply", 0xF00FFFFF, "max_current_15v_ma max_current_20v_ma"),
    };

    public static TheoryData<string> Vectors()
    {
        TheoryData<string> names = [];
        foreach (JsonElement entry in Entries().Where(entry => Types.ContainsKey(entry.GetProperty("type").GetString()!)))
        {
            names.Add(entry.GetProperty("name").GetString()!);
        }

        return names;
    }

    [Theory]
    [MemberData(nameof(Vectors))]
    public void ObjectOfACheckVector_IsItsWordAsFarAsTheClassShowsIt(string name)
    {
        JsonElement entry = Entries().Single(e => e.GetProperty("name").GetString() == name);
        string side = entry.GetProperty("type").GetString()!;
        (string type, uint known, string fields) = Types[side];
        bool isSource = side.EndsWith("source", StringComparison.Ordinal);
        StringBuilder text = new();
        foreach (string field in fields.Split(' '))
        {
            text.Append($"pd1/{(isSource ? "source" : "sink")}-capabilities/1:{type}/{Attributes[field]}:");
            text.AppendLine(entry.GetProperty("fields").TryGetProperty(field, out JsonElement value) ? Print(field, value) : Print(field, default));
        }

        Recording read = Recording.Of(text.ToString());

        read.Faults.Should().BeEmpty();
        read.Format.Should().Be("sysfs");
        uint word = Convert.ToUInt32(entry.GetProperty("word").GetString(), 16) & known;
        read.Messages.Single().Hex.Should().Be((isSource ? "0110" : "0410") + Wire(word));
        read.Messages.Single().Known.Should().EndWith(Wire(known));
    }

    [Fact]
    public void DirectoryOfAPartner_IsOneSourceCapabilitiesInTheOrderOfThePositions()
    {
        Recording read = Recording.OfFile("sysfs-pd1.txt");

        read.Faults.Should().BeEmpty();
        read.Header.Should().Be(new CaptureHeader { Format = "sysfs" });
        KeptMessage message = read.Messages.Single();
        (message.Sop, message.TimeUs, message.Line).Should().Be((SopKind.Sop, 0, 6));
        message.Hex.Should().Be("0150" + Wire(0x0801912C) + Wire(0x0002D12C) + Wire(0x0004B12C) + Wire(0x00064145) + Wire(0xC9A42141));

        // Type alone is known of the header: SPR AVS may stand behind, and no directory shows it.
        message.Known.Should().Be("1F80" + Wire(0xFF3FFFFF) + Wire(0xC03FFFFF) + Wire(0xC03FFFFF) + Wire(0xC03FFFFF) + Wire(0xF9FEFF7F));
    }

    [Fact]
    public void KernelWithoutPeakCurrent_LeavesItUnknown() =>
        Recording.Of(Five).Messages.Single().Known.Should().Be("1F80" + Wire(0xC00FFFFF));

    [Fact]
    public void SinkCapabilities_AreAMessageOfTheirOwnBehindTheSources()
    {
        Recording read = Recording.Of(
            "pd0/sink-capabilities/1:fixed_supply/voltage:5000mV\npd0/sink-capabilities/1:fixed_supply/unchunked_extended_messages_supported:1\n"
            + "pd0/source-capabilities/1:fixed_supply/voltage:5000mV\n");

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => (m.Hex, m.Line)).Should().Equal(("0110" + Wire(0x00019000), 3), ("0410" + Wire(0x00019000), 1));

        // Bit 24 is part of another field in sink objects (R3.2v1.1, Table 6.17).
        read.Messages[1].Known.Should().EndWith(Wire(0xC00FFC00));
    }

    [Fact]
    public void MissingPosition_IsAnUnknownObjectAndTheOthersKeepTheirPlaces()
    {
        Recording read = Recording.Of(Five + "pd1/source-capabilities/3:programmable_supply/maximum_current:3000mA\n");

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((1, 0, "sysfs-object-missing"));
        read.Faults.Single().Detail.Should().Contain("position 2");
        read.Messages.Single().Hex.Should().Be("0130" + Wire(0x0001912C) + Wire(0) + Wire(0xC000003C));
        read.Messages.Single().Known.Should().Be("1F80" + Wire(0xC00FFFFF) + Wire(0) + Wire(0xF000007F));
    }

    [Theory]
    [InlineData("7:programmable_supply/pps_power_limited:0")]
    [InlineData("2:spr_adjustable_voltage_supply/peak_current:0")]
    public void ListThatNothingCanFollowUnseen_HasAKnownCount(string last) =>
        Recording.Of(Five + "pd1/source-capabilities/" + last).Messages.Single().Known.Should().StartWith("1FF0");

    [Theory]
    [InlineData("port0-partner/usb_power_delivery_revision:3.0", "8110", "DF80")]
    [InlineData("port0-partner/usb_power_delivery_revision:3.1", "8110", "DF80")]
    [InlineData("port0-partner/usb_power_delivery_revision:2.0", "4110", "DF80")]
    [InlineData("port0-partner/usb_power_delivery_revision:1.0", "0110", "1F80")]
    [InlineData("port0-partner/usb_power_delivery_revision:0.0", "0110", "1F80")]
    [InlineData("port0-partner/usb_power_delivery_revision:x", "0110", "1F80")]
    [InlineData("port0-partner/usb_power_delivery_revision:2.0\nport1-partner/usb_power_delivery_revision:3.0", "0110", "1F80")]
    [InlineData("pd1/revision:3.0\npd1/version:1.0\nport0/usb_power_delivery_revision:3.0", "0110", "1F80")]
    public void Revision_IsKnownOnlyWhereItIsThePartners(string lines, string header, string known)
    {
        Recording read = Recording.Of(Five + lines);

        read.Faults.Should().BeEmpty();
        read.Header.Edition.Should().BeNull();
        read.Messages.Single().Hex.Should().StartWith(header);
        read.Messages.Single().Known.Should().StartWith(known);
    }

    [Theory]
    [InlineData("")]
    [InlineData("./")]
    [InlineData("> pd1/")]
    [InlineData("/sys/devices/pci0000:00/0000:00:1d.0/typec/port0/port0-partner/pd1/")]
    [InlineData("/sys/class/typec/port0-partner/usb_power_delivery//")]
    [InlineData("../../pd1/")]
    public void PathInFront_MakesNoDifference(string path)
    {
        foreach (string list in new[] { "source-capabilities", "source_capabilities" })
        {
            Recording read = Recording.Of($"{path}{list}/1:fixed_supply/voltage:5000mV\r\n{path}{list}/1:fixed_supply/maximum_current:3000mA");

            read.Faults.Should().BeEmpty();
            read.Messages.Single().Hex.Should().Be("0110" + Wire(0x0001912C));
        }
    }

    [Theory]
    [InlineData("voltage:5025mV", 0xC0000000)]
    [InlineData("voltage:51200mV", 0xC0000000)]
    [InlineData("voltage:5000", 0xC0000000)]
    [InlineData("voltage:5000mA", 0xC0000000)]
    [InlineData("voltage:-50mV", 0xC0000000)]
    [InlineData("voltage:+50mV", 0xC0000000)]
    [InlineData("voltage:mV", 0xC0000000)]
    [InlineData("voltage:", 0xC0000000)]
    [InlineData("voltage:50 00mV", 0xC0000000)]
    [InlineData("voltage:50\000mV", 0xC0000000)]
    [InlineData("voltage:99999999999999999999mV", 0xC0000000)]
    [InlineData("maximum_current:3005mA", 0xC0000000)]
    [InlineData("dual_role_power:2", 0xC0000000)]
    [InlineData("dual_role_power:yes", 0xC0000000)]
    [InlineData("peak_current:4", 0xC0000000)]
    public void ValueThatTheKernelDoesNotPrint_LeavesItsFieldUnknownAndNamesThePath(string attribute, uint known)
    {
        Recording read = Recording.Of("pd1/source-capabilities/1:fixed_supply/" + attribute);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((1, 0, "sysfs-value-invalid"));
        read.Faults.Single().Detail.Should().Contain("'pd1/source-capabilities/1:fixed_supply/" + attribute.Split(':')[0] + "'")
            .And.Contain("expected").And.NotContain("\0");
        read.Messages.Single().Known.Should().EndWith(Wire(known));
    }

    [Theory]
    [InlineData("2:programmable_supply/maximum_voltage:11050mV")]
    [InlineData("2:programmable_supply/maximum_current:2225mA")]
    [InlineData("2:programmable_supply/maximum_voltage:25600mV")]
    [InlineData("2:battery/maximum_power:60100mW")]
    [InlineData("2:variable_supply/minimum_voltage:4760mV")]
    public void ValueBetweenTwoSteps_IsUnknown(string attribute)
    {
        Recording read = Recording.Of(Five + "pd1/source-capabilities/" + attribute);

        read.FaultCodes.Should().Equal("sysfs-value-invalid");
        read.Messages.Single().Known[12..].Should().BeOneOf(Wire(0xC0000000), Wire(0xF0000000));
    }

    [Fact]
    public void AttributeTwice_IsAFaultOnlyWhenItDiffers()
    {
        Recording.Of(Five + Five).Faults.Should().BeEmpty();
        Recording differing = Recording.Of(Five + "pd1/source-capabilities/1:fixed_supply/voltage:9000mV\n");

        differing.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "sysfs-value-repeated"));
        differing.Messages.Single().Hex.Should().Be("0110" + Wire(0x0001912C));
    }

    [Fact]
    public void UnknownType_KeepsItsPlaceAndIsReportedOnce()
    {
        Recording read = Recording.Of(
            "pd1/source-capabilities/2:tarnholt_supply/voltage:5000mV\npd1/source-capabilities/2:tarnholt_supply/current:1mA\n" + Five);

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, "sysfs-type-unknown"));
        read.Messages.Single().Hex.Should().Be("0120" + Wire(0x0001912C) + Wire(0));
        read.Messages.Single().Known.Should().EndWith(Wire(0));
    }

    [Fact]
    public void TwoTypesAtOnePosition_AreBelievedNeither()
    {
        Recording read = Recording.Of(
            Five + "pd1/source-capabilities/1:battery/maximum_power:60000mW\npd1/source-capabilities/1:battery/minimum_voltage:5000mV");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "sysfs-position-invalid"));
        read.Messages.Single().Known.Should().Be("1F80" + Wire(0));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("8")]
    [InlineData("11")]
    [InlineData("4294967297")]
    [InlineData("99999999999999999999")]
    public void PositionThatNoListHas_IsNotUsed(string position)
    {
        Recording read = Recording.Of(Five + $"pd1/source-capabilities/{position}:fixed_supply/voltage:9000mV");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "sysfs-position-invalid"));
        read.Messages.Single().Hex.Should().HaveLength(12);
    }

    [Fact]
    public void DirectoriesOfSeveralPorts_AreNamedAndNotRead()
    {
        Recording read = Recording.Of(Five + "pd0/source-capabilities/1:fixed_supply/voltage:5000mV\n");

        read.FaultCodes.Should().Equal("sysfs-several-ports");
        read.Faults.Single().Detail.Should().Contain("'pd1', 'pd0'").And.Contain("port0-partner/usb_power_delivery");
        read.Messages.Should().BeEmpty();
    }

    [Fact]
    public void SameDirectoryByTwoPaths_IsReadOnce()
    {
        Recording read = Recording.Of(Five + Five.Replace("pd1", "port0-partner/usb_power_delivery", StringComparison.Ordinal));

        read.Faults.Should().BeEmpty();
        read.Messages.Should().ContainSingle();
    }

    [Theory]
    [InlineData("/sys/class/usb_power_delivery/pd1/revision:3.0")]
    [InlineData("port0-partner/usb_power_delivery_revision:3.0")]
    public void DirectoryWithoutAnObject_IsExplained(string text)
    {
        Recording read = Recording.Of(text);

        read.Format.Should().Be("sysfs");
        read.FaultCodes.Should().Equal("sysfs-without-objects");
        read.Headers.Should().ContainSingle();
    }

    [Theory]
    [InlineData("pd1/source-capabilities")]
    [InlineData("pd1/source-capabilities/")]
    [InlineData("pd1/source-capabilities/uevent:DEVTYPE=a/b:c")]
    [InlineData("pd1/source-capabilities/1:fixed_supply")]
    [InlineData("pd1/source-capabilities/1:fixed_supply/voltage")]
    [InlineData("pd1/source-capabilities/1:fixed_supply/power/voltage:1mV")]
    [InlineData("pd1/source-capabilities/:fixed_supply/voltage:1mV")]
    [InlineData("pd1/source-capabilities/x:fixed_supply/voltage:1mV")]
    [InlineData("pd1/resource-capabilities/1:fixed_supply/voltage:1mV")]
    [InlineData("pd1/capabilities/1:fixed_supply/voltage:1mV")]
    [InlineData("grep: pd1/source-capabilities/1:fixed_supply/power/autosuspend_delay_ms: Input/output error")]
    [InlineData("# pd1/source-capabilities/1:fixed_supply/voltage:9000mV")]
    public void LinesAboutOtherThings_ArePassedOver(string line)
    {
        Recording read = Recording.Of(Five + line);

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be("0110" + Wire(0x0001912C));
    }

    [Fact]
    public void ZeroBytesBehindAValue_AreNoPartOfIt()
    {
        Recording read = Recording.Of(Five.Replace("mV\n", "mV\0\0\0\n", StringComparison.Ordinal)
            + "pd1/source-capabilities/1:fixed_supply/voltage:\0\0\0\n");

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be("0110" + Wire(0x0001912C));
    }

    [Fact]
    public void ThousandsOfDirectories_TakeNoMemory()
    {
        byte[] lines = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(0, 1000).Select(
            index => $"pd{index}/source-capabilities/{index % 9}:fixed_supply/voltage:{index}mV\n")));
        CaptureReader reader = new(new Recording());
        reader.Write(lines);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int round = 0; round < 100; round++)
        {
            reader.Write(lines);
        }

        reader.Complete();
        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(4 << 20);
    }

    private static JsonElement[] Entries() =>
        [.. JsonDocument.Parse(File.ReadAllText(Repository.PathOf("shared", "vectors", "power-objects.json")))
            .RootElement.GetProperty("entries").EnumerateArray()];

    private static string Print(string field, JsonElement value)
    {
        string unit = field[^3..] switch { "_mv" => "mV", "_ma" => "mA", "_mw" => "mW", _ => "" };
        return value.ValueKind switch
        {
            JsonValueKind.True => "1",
            JsonValueKind.Number => value.GetRawText() + unit,
            _ => "0" + unit,
        };
    }

    /// <summary>A word as on the wire.</summary>
    private static string Wire(uint word) => Convert.ToHexString(BitConverter.GetBytes(word));
}
