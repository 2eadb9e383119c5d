using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>
/// What is learned of the cable (R3.2v1.1, Table 6.41). 0x110A2643 is an EPR cable of the fact base: 50 V, 5 A, EPR bit;
/// the others differ in one of the three (6.4.10.1, step 6).
/// </summary>
public class CableEvidenceTests
{
    [Theory]
    [InlineData("43260A11", CableEvidence.Epr)]
    [InlineData("43260811", CableEvidence.FiveAmpere)]
    [InlineData("43220A11", CableEvidence.FiveAmpere)]
    [InlineData("23260A11", CableEvidence.ThreeAmpere)]
    [InlineData("03260A11", CableEvidence.Unknown)]
    public void Marker_SaysWhatTheCableCarries(string vdo, CableEvidence expected)
    {
        CaptureRun.Text("{\"capture\":1}\n" + Answer("41A000FF", "00006018", vdo)).CableEvidence.Should().Be(expected);
    }

    // Structured VDM version 1.0 has no voltage and no EPR bit; bit 4 says that VBUS goes through.
    [Fact]
    public void MarkerOfRevision2_IsNoEprCable()
    {
        CaptureRun.Text("{\"capture\":1}\n" + Answer("418000FF", "00006018", "53260A11")).CableEvidence
            .Should().Be(CableEvidence.FiveAmpere);
    }

    // Product type 110: a VCONN-powered device has another VDO.
    [Fact]
    public void VconnPoweredDevice_SaysNothingOfTheCable()
    {
        CaptureRun.Text("{\"capture\":1}\n" + Answer("41A000FF", "00006030", "43260A11")).CableEvidence
            .Should().Be(CableEvidence.Unknown);
    }

    [Theory]
    [InlineData("\"current_a\":5,\"epr\":true", CableEvidence.Epr)]
    [InlineData("\"current_a\":5,\"epr\":false", CableEvidence.FiveAmpere)]
    [InlineData("\"current_a\":5", CableEvidence.FiveAmpere)]
    [InlineData("\"current_a\":3", CableEvidence.ThreeAmpere)]
    public void Header_SaysWhichCableWasUsed(string stated, CableEvidence expected)
    {
        CaptureRun.Text($"{{\"capture\":1,\"cable\":{{\"kind\":\"detachable\",{stated}}}}}\n").CableEvidence.Should().Be(expected);
    }

    private static string Answer(string vdm, string id, string vdo) =>
        $"{{\"t\":1,\"sop\":\"SOP'\",\"hex\":\"8F51{vdm}{id}0000000000000000{vdo}\"}}\n";
}
