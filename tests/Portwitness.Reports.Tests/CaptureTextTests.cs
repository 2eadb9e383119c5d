using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class CaptureTextTests
{
    [Fact]
    public void EveryKindOfObject_IsARowWithAlignedColumns()
    {
        string text = Write(Capture(
            new PowerObject { RawHex = "0x0801912C", Fixed = new FixedSupply { VoltageMv = 5000, MaxCurrentMa = 3000, UnconstrainedPower = true } },
            new PowerObject { RawHex = "0x59019064", Battery = new BatterySupply { MinVoltageMv = 5000, MaxVoltageMv = 20000, MaxPowerMw = 45000 } },
            new PowerObject { RawHex = "0x8F00F096", Variable = new VariableSupply { MinVoltageMv = 3000, MaxVoltageMv = 12000, MaxCurrentMa = 1500 } },
            new PowerObject { RawHex = "0xC8DC2164", Pps = new PpsSupply { MinVoltageMv = 3300, MaxVoltageMv = 11000, MaxCurrentMa = 5000, PowerLimited = true } },
            new PowerObject { RawHex = "0xE004B0E1", SprAvs = new SprAvsSupply { MaxCurrent15VMa = 3000, MaxCurrent20VMa = 2250, PeakCurrentCode = 0 } },
            new PowerObject { RawHex = "0xD230968C", EprAvs = new EprAvsSupply { MinVoltageMv = 15000, MaxVoltageMv = 28000, PdpW = 140, PeakCurrentCode = 1 } },
            new PowerObject { RawHex = "0x00000000", Padding = new Padding() },
            new PowerObject { RawHex = "0xF0000000", Reserved = new Reserved() }));

        text.Should().Contain("""
              1  0x0801912C  fixed     5 V                    3 A          15 W   unconstrained power
              2  0x59019064  battery   5 to 20 V                           45 W
              3  0x8F00F096  variable  3 to 12 V              1.5 A
              4  0xC8DC2164  PPS       3.3 to 11 V            5 A                 power limited
              5  0xE004B0E1  SPR AVS   9 to 15 V, 15 to 20 V  3 A, 2.25 A
              6  0xD230968C  EPR AVS   15 to 28 V                          140 W  peak current code 1
              7  0x00000000  padding
              8  0xF0000000  reserved

            """.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void BitsThatWereNeverSeen_AreQuestionMarks()
    {
        string text = Write(Capture(
            new PowerObject { RawHex = "0x0001912C", KnownBits = 0xC00FFFFF, Fixed = new FixedSupply { VoltageMv = 5000, MaxCurrentMa = 3000 } },
            new PowerObject { RawHex = "0x00000000", KnownBits = 0xC0000000, Fixed = new FixedSupply() },
            new PowerObject { RawHex = "0x00000000", KnownBits = 0 }));

        text.Should().Contain("1  0x???1912C  fixed   5 V  3 A  15 W  dual-role power ?, USB suspend ?");
        text.Should().Contain("2  0x????????  fixed   ?    ?    ?     peak current ?");
        text.Should().Contain("3  0x????????  kind ?\n");
    }

    [Fact]
    public void ContractsAndFindings_CarryTheirPlaces()
    {
        DecodedCapture capture = Capture();
        capture.Contracts.Add(new Contract
        {
            RequestedUs = 1000, AcceptedUs = 3500, Outcome = "accepted", ObjectPosition = 2, VoltageMv = 9000, CurrentMa = 2000,
            PowerMw = 18000, CapabilityMismatch = true, MessageIndex = 7,
        });
        capture.Findings.Add(new Finding { Rule = "a-note", Severity = Severity.Note, Title = "A note" });
        capture.Findings.Add(new Finding
        {
            Rule = "a-rule", Severity = Severity.Violation, Title = "A title", Clause = "R3.2v1.1 6.4.1", File = "c1", Port = "C1",
            Arrangement = { "C1", "A1" }, TimeUs = 1042, MessageIndex = 3, ObjectPosition = 2, LabelLine = 4, Repeats = 1,
            Verdict = Verdict.Fails, Expected = "this", Observed = "that",
        });

        string text = Write(capture);

        text.Should().Contain("""
              requested   message  object  voltage  current  power  outcome   accepted after  ready after
              0.001000 s  7        2       9 V      2 A      18 W   accepted  2.5 ms          -            sink wants more

            Findings: 1 violation, 1 note

              violation a-rule (fails)
                A title
                expected  this
                observed  that
                where     c1, port C1, in use C1 + A1, 0.001042 s, message 3, object 2, label line 4, and 1 more
                          time
                by        R3.2v1.1 6.4.1

              note a-note
                A note

            """.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void HostileNames_AreMadeVisible()
    {
        DecodedCapture capture = Capture();
        capture.File = "\u001b]0;gone\u0007.jsonl";
        capture.Port = "C1\u202e";
        capture.Faults.Add(new Fault { File = capture.File, Line = 3, Column = 9, Code = "value-wrong", Detail = "found \u001b[2J" });

        string text = Write(capture);

        text.Should().NotContain("\u001b").And.NotContain("\u0007").And.NotContain("\u202e");
        text.Should().Contain("\\u001b]0;gone\\u0007.jsonl: line 3, column 9: found \\u001b[2J (value-wrong)");
    }

    [Fact]
    public void Colour_AddsNothingButColour()
    {
        DecodedCapture capture = Capture(new PowerObject { RawHex = "0x0801912C", Fixed = new FixedSupply { VoltageMv = 5000 } });
        capture.Findings.Add(new Finding { Rule = "a-rule", Severity = Severity.Caution, Title = "A title", Verdict = Verdict.CannotTell });

        string coloured = Write(capture, new TextStyle(true, 100));

        coloured.Should().Contain("\u001b[33mcaution\u001b[0m");
        System.Text.RegularExpressions.Regex.Replace(coloured, "\u001b\\[[0-9]+m", "").Should().Be(Write(capture));
    }

    private static DecodedCapture Capture(params PowerObject[] objects)
    {
        for (int index = 0; index < objects.Length; index++)
        {
            objects[index].Position = index + 1;
        }

        return new DecodedCapture
        {
            File = "c1", Edition = "R3.0..R3.2", Format = "capture", MessageCount = 1,
            Advertisements = { new Advertisement { Message = "Source_Capabilities", MessageIndex = 1, Objects = { objects } } },
        };
    }

    private static string Write(DecodedCapture capture, TextStyle? style = null)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        CaptureText.Write(writer, capture, style ?? TextStyle.Plain);
        return writer.ToString();
    }
}
