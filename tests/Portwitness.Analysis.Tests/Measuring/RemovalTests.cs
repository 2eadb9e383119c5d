using Portwitness.Analysis.Measuring;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>After a Hard Reset or a detach (R3.2v1.1, Tables 6.68 and 7.23; USB Type-C from memory). The clock's step is 1 µs.</summary>
public class RemovalTests
{
    [Theory]
    [InlineData(685_001, "")] // tPSHardReset 35 + tSafe0V 650 ms, and the clock
    [InlineData(685_002, "vbus-not-removed-by-hard-reset fails")]
    public void VbusGoes_Within685Ms(long lastHighUs, string found)
    {
        VbusRemoval removal = Reset();
        Take(removal, 5_000, 0, 100_000, 300_000, 500_000, lastHighUs);
        Take(removal, 100, lastHighUs + 10_000);
        removal.Close();

        Vbus.Found(removal).Should().Be(found);
    }

    [Theory]
    [InlineData(660_000, "")] // between these samples VBUS may have gone and come back
    [InlineData(659_998, "vbus-not-removed-by-hard-reset fails")]
    public void SparseSamples_MayHaveMissedIt(long apartUs, string found)
    {
        VbusRemoval removal = Reset();
        Take(removal, 5_000, 30_000, 30_000 + apartUs, 30_000 + (2 * apartUs));
        removal.Close();

        Vbus.Found(removal).Should().Be(found);
    }

    [Theory]
    [InlineData(800, "")]
    [InlineData(801, "vbus-not-removed-by-hard-reset fails")]
    public void VSafe0V_HasAnUpperEnd(int volts, string found)
    {
        VbusRemoval removal = Reset();
        Take(removal, volts, 100_000, 500_000, 900_000, 1_000_000);
        removal.Close();

        Vbus.Found(removal).Should().Be(found);
    }

    // High until 100 ms, low from 200 ms until the moment, back 1 ms later. After tSrcRecover VBUS is turned on; on its way up it may
    // be low for tSrcTurnOn (275 ms) more.
    [Theory]
    [InlineData(false, 759_999, "")] // at most 660 ms and a little
    [InlineData(false, 759_998, "vbus-recovery-time-wrong fails")]
    [InlineData(false, 1_475_001, "")]
    [InlineData(false, 1_475_002, "vbus-recovery-time-wrong fails")]
    [InlineData(true, 1_184_999, "")]
    [InlineData(true, 1_184_998, "vbus-recovery-time-wrong fails")]
    [InlineData(true, 1_900_001, "")]
    [InlineData(true, 1_900_002, "vbus-recovery-time-wrong fails")]
    [InlineData(null, 759_998, "vbus-recovery-time-wrong fails")] // either mode asks for more
    [InlineData(null, 759_999, "")]
    [InlineData(null, 1_900_001, "")]
    [InlineData(null, 1_900_002, "vbus-recovery-time-wrong fails")]
    public void Recovery_HasTwoSides(bool? eprMode, long momentUs, string found)
    {
        VbusRemoval removal = new(Vbus.Exact, 0, true) { InEprMode = eprMode, RecordsAttach = true };
        Take(removal, 5_000, 50_000, 100_000);
        Take(removal, 0, 200_000, 300_000);

        // Too soon is counted to the sample that is back, too late to the last that is low.
        bool soon = momentUs < 1_185_000 && (eprMode == true || momentUs < 800_000);
        Take(removal, 0, soon ? momentUs - 1_000 : momentUs);
        Take(removal, 5_000, soon ? momentUs : momentUs + 1_000);
        removal.Close();

        Vbus.Found(removal).Should().Be(found);
    }

    [Fact]
    public void LateRecovery_MayBeAnUnplugging()
    {
        VbusRemoval removal = new(Vbus.Exact, 0, true) { InEprMode = false };
        Take(removal, 0, 200_000, 5_000_000);
        Take(removal, 5_000, 5_001_000);
        removal.Close();

        Vbus.Found(removal).Should().Be("vbus-recovery-time-wrong cannot tell");
    }

    [Theory]
    [InlineData(650_001, 800, "")]
    [InlineData(650_001, 801, "")]
    [InlineData(650_002, 800, "")]
    [InlineData(650_002, 801, "vbus-present-after-detach cannot tell")]
    public void VbusAfterADetach_IsACaution(long firstUs, int volts, string found)
    {
        VbusRemoval removal = new(Vbus.Exact, 0, false);
        Take(removal, volts, firstUs, firstUs == 650_001 ? firstUs : firstUs + 1_000);
        removal.Close();

        Vbus.Found(removal).Should().Be(found);
    }

    private static VbusRemoval Reset() => new(Vbus.Exact, 0, true) { InEprMode = false, RecordsAttach = true };

    private static void Take(VbusRemoval removal, int volts, params long[] times)
    {
        foreach (long at in times)
        {
            removal.Add(new Sample(at, volts, 0));
        }
    }
}
