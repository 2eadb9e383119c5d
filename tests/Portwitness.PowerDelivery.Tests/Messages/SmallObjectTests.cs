using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.PowerDelivery.Tests.Messages;

public sealed class SmallObjectTests
{
    // R3.2v1.1, Table 6.50.
    [Theory]
    [InlineData(0x018C0000, "Enter", null)]
    [InlineData(0x02000000, "Enter Acknowledged", null)]
    [InlineData(0x03000000, "Enter Succeeded", null)]
    [InlineData(0x04000000, "Enter Failed", "unknown cause")]
    [InlineData(0x04010000, "Enter Failed", "the cable is not EPR capable")]
    [InlineData(0x04020000, "Enter Failed", "the source did not become the VCONN source")]
    [InlineData(0x04030000, "Enter Failed", "EPR Capable is not set in the request")]
    [InlineData(0x04040000, "Enter Failed", "the source cannot enter EPR mode now")]
    [InlineData(0x04050000, "Enter Failed", "EPR Capable is not set in the first power data object")]
    [InlineData(0x04FF0000, "Enter Failed", "reserved (255)")]
    [InlineData(0x05000000, "Exit", null)]
    [InlineData(0x00000000, "reserved (0)", null)]
    [InlineData(0xFF000000, "reserved (255)", null)]
    public void EprMode_NamesItsActionAndReason(uint word, string action, string? reason)
    {
        new EprModeObject(word).ActionName.Should().Be(action);
        new EprModeObject(word).FailureReason.Should().Be(reason);
    }

    // R3.2v1.1, Table 6.52.
    [Theory]
    [InlineData(0x32110000, "R3.2v1.1", Editions.R32)]
    [InlineData(0x31180000, "R3.1v1.8", Editions.R31)]
    [InlineData(0x30200000, "R3.0v2.0", Editions.R30)]
    [InlineData(0x20130000, "R2.0v1.3", Editions.R20)]
    [InlineData(0x33100000, "R3.3v1.0", Editions.None)]
    [InlineData(0xFFFFFFFF, "R15.15v15.15", Editions.None)]
    public void Revision_SaysItsEdition(uint word, string text, Editions edition)
    {
        new RevisionObject(word).ToString().Should().Be(text);
        new RevisionObject(word).Edition.Should().Be(edition);
    }

    // R3.2v1.1, Table 6.27.
    [Theory]
    [InlineData(5, "BIST Carrier Mode")]
    [InlineData(8, "BIST Test Data")]
    [InlineData(9, "BIST Shared Test Mode Entry")]
    [InlineData(10, "BIST Shared Test Mode Exit")]
    [InlineData(0, "reserved (0)")]
    [InlineData(15, "reserved (15)")]
    public void Bist_NamesItsMode(int code, string name) => BistObject.Create(code).ModeName.Should().Be(name);

    // R3.2v1.1, Table 6.46: 0xFFFF is "unknown", not 6553.5 Wh.
    [Fact]
    public void BatteryThatDoesNotKnow_HasNoCapacity()
    {
        new BatteryStatusObject(0xFFFF_0200).PresentCapacity.Should().BeNull();
        new BatteryStatusObject(0xFFFE_0200).PresentCapacity!.Value.MilliwattHours.Should().Be(6_553_400);
    }

    // From memory: the letters are in bits 31 to 24 and 23 to 16.
    [Theory]
    [InlineData(0x53450000, "SE")]
    [InlineData(0x1B5CFFFF, "\\x1B\\x5C")]
    public void GetCountryInfo_NamesTheCountry(uint word, string country)
    {
        GetCountryInfoObject asked = new(word);
        asked.Country.ToString().Should().Be(country);
        GetCountryInfoObject.Create(asked.Country).Raw.Should().Be(word & 0xFFFF_0000);
    }

    // R3.2v1.1, Table 6.47: fixed batteries are 0 to 3, hot-swappable ones 4 to 7.
    [Fact]
    public void Alert_NamesItsBatteries()
    {
        AlertObject alert = AlertObject.Create(fixedBatteries: 0b1001, hotSwappableBatteries: 0b0010);
        AlertObject.Layout.Fields.Where(field => field.Name.EndsWith("Batteries", StringComparison.Ordinal))
            .Select(field => field.Describe(alert.Raw)).Should().Equal("battery 0, 3", "battery 5");
    }
}
