using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>
/// Rules about what a message holds, on both sides of each limit: R3.2v1.1 Tables 6.5, 6.6, 6.53 and the tables of the objects.
/// </summary>
public class ContentRuleTests
{
    private static readonly string[] Names =
    [
        .. CaptureRules.Descriptions.Where(rule => rule.Category == RuleCategory.Messages).Select(rule => rule.Name)
            .Where(name => name != "object-count-differs-from-length"),
    ];

    // Tables 6.5, 6.6 and 6.53: the codes beside the last and the first of each class.
    [Theory]
    [InlineData("B801", "")]
    [InlineData("B901", "caution reserved-message-type")]
    [InlineData("BF01", "caution reserved-message-type")]
    [InlineData("A001", "caution reserved-message-type")]
    [InlineData("AC1100001132", "")]
    [InlineData("AD1100000000", "caution reserved-message-type")]
    [InlineData("AE1100000000", "caution reserved-message-type")]
    [InlineData("B01100000000", "caution reserved-message-type")]
    [InlineData("B391028000000000", "caution reserved-message-type")]
    public void ReservedType_IsNamed(string hex, string expected) => Run("R3.2", hex).Should().Be(expected);

    // Later editions gave codes a meaning; one that has none in R3.2v1.1 had none before.
    [Theory]
    [InlineData("R3.0", "violation reserved-message-type")]
    [InlineData("R3.1", "violation reserved-message-type")]
    [InlineData("", "caution reserved-message-type")]
    public void ReservedType_IsSettledByTheEdition(string edition, string expected) => Run(edition, "B901").Should().Be(expected);

    [Fact]
    public void MessageOfThePartner_IsNoted()
    {
        Run("R3.0", "9900").Should().Be("note reserved-message-type");
        Run("R3.2", "92A00380000000000000").Should().Be("note data-block-too-short");
    }

    // Table 6.53: the least Data Size of every block, and one byte less. Message types with one chunk.
    [Theory]
    [InlineData(0x01, 25)]
    [InlineData(0x02, 7)]
    [InlineData(0x03, 1)]
    [InlineData(0x04, 1)]
    [InlineData(0x05, 9)]
    [InlineData(0x06, 2)]
    [InlineData(0x07, 5)]
    [InlineData(0x0C, 4)]
    [InlineData(0x0D, 4)]
    [InlineData(0x0F, 24)]
    [InlineData(0x10, 2)]
    [InlineData(0x1E, 4)]
    public void BlockOneByteTooShort_IsAccused(int code, int least)
    {
        // Zeroes are no type of Extended_Control.
        string whole = code == 0x10 ? "caution reserved-code" : "";
        Run("R3.2", Block(code, least)).Should().Be(whole);
        Run("R3.2", Block(code, least + 1)).Should().Be(whole, "newer editions add fields: 6.2.1.2.4");
        Run("R3.2", Block(code, least - 1)).Should().Be(whole.Length == 0 ? "violation data-block-too-short" : $"{whole}, violation data-block-too-short");
    }

    // EPR lists have whole objects, seven at least.
    [Theory]
    [InlineData(28, "")]
    [InlineData(32, "")]
    [InlineData(27, "violation data-block-too-short")]
    [InlineData(24, "violation data-block-too-short")]
    [InlineData(30, "violation data-block-too-short")]
    public void EprList_HasWholeObjects(int size, string expected) =>
        Run("R3.2", $"B181{size:X2}00{string.Concat(Enumerable.Repeat("00", size))}").Should().Be(expected);

    // R3.0 had shorter blocks (from memory); what is shorter than these is a caution there.
    [Theory]
    [InlineData("R3.0", 0x02, 5, "")]
    [InlineData("R3.0", 0x02, 4, "caution data-block-too-short")]
    [InlineData("R3.0", 0x01, 24, "")]
    [InlineData("R3.0", 0x01, 23, "caution data-block-too-short")]
    [InlineData("R3.0", 0x0F, 21, "")]
    [InlineData("R3.0", 0x0F, 20, "caution data-block-too-short")]
    [InlineData("", 0x02, 5, "caution data-block-too-short")]
    public void BlockOfAnOlderEdition_MayBeShorter(string edition, int code, int size, string expected) =>
        Run(edition, Block(code, size)).Should().Be(expected);

    // Status of a cable plug has 2 bytes (Table 6.56); what the cable sends is not the product's.
    [Theory]
    [InlineData("82A1028000000000", "")]
    [InlineData("82A1018000000000", "note data-block-too-short")]
    public void StatusOfACablePlug_HasTwoBytes(string hex, string expected) => Run("R3.2", hex, "SOP'").Should().Be(expected);

    // Table 6.6: the number of data objects, one more, and for EPR_Request one less. R3.2 is confirmed, others are not.
    [Theory]
    [InlineData("A511", 1, "")]
    [InlineData("A521", 2, "violation object-count-wrong")]
    [InlineData("A611", 1, "")]
    [InlineData("A621", 2, "violation object-count-wrong")]
    [InlineData("A721", 2, "violation object-count-wrong")]
    [InlineData("A821", 2, "violation object-count-wrong")]
    [InlineData("AA11", 1, "")]
    [InlineData("AA21", 2, "violation object-count-wrong")]
    [InlineData("AB21", 2, "note object-count-wrong")]
    [InlineData("AB31", 3, "violation object-count-wrong")]
    [InlineData("AC21", 2, "violation object-count-wrong")]
    [InlineData("A311", 1, "")]
    [InlineData("A371", 7, "")]
    [InlineData("A321", 2, "violation object-count-wrong")]
    public void ObjectCount_IsThatOfTheType(string header, int count, string expected)
    {
        // Zeroes are no action of EPR_Mode and no mode of BIST.
        string hex = header + string.Concat(Enumerable.Repeat(header.StartsWith("AA", StringComparison.Ordinal) ? "00000003"
            : header.StartsWith("A3", StringComparison.Ordinal) ? "00000080" : "00000000", count));
        Run("R3.2", hex).Should().Be(expected);
        Run("R3.1", hex).Should().Be(expected.Replace("violation", "caution", StringComparison.Ordinal));
    }

    // Figure 6.16: VDM header, ID header, Cert Stat, Product.
    [Theory]
    [InlineData("AF41 41A000FF 00000000 00000000 00000000", "")]
    [InlineData("AF31 41A000FF 00000000 00000000", "violation object-count-wrong")]
    [InlineData("AF11 81A000FF", "")]
    public void AnswerToDiscoverIdentity_HasFourObjects(string hex, string expected) =>
        Run("R3.2", hex.Replace(" ", "", StringComparison.Ordinal)).Should().Be(expected);

    // The reserved bits of each first object: Tables 6.27, 6.29, 6.46, 6.47, 6.50, 6.51, 6.52, and 6.3 of the extended header.
    [Theory]
    [InlineData("A31100000080", "")]
    [InlineData("A31101000080", "violation reserved-bits-in-message")]
    [InlineData("A51100020000", "")]
    [InlineData("A51101020000", "violation reserved-bits-in-message")]
    [InlineData("A61100000002", "")]
    [InlineData("A61100000001", "violation reserved-bits-in-message")]
    [InlineData("A61110000002", "violation reserved-bits-in-message")]
    [InlineData("AA1100000003", "")]
    [InlineData("AA1100000104", "")]
    [InlineData("AA1100000504", "")]
    [InlineData("AA1100800003", "violation reserved-bits-in-message")]
    [InlineData("AA1101000003", "violation reserved-bits-in-message")]
    [InlineData("AB1141414180", "")]
    [InlineData("AB1141414181", "violation reserved-bits-in-message")]
    [InlineData("AC1100001132", "")]
    [InlineData("AF1101A000FF", "")]
    [InlineData("AF1121A000FF", "violation reserved-bits-in-message")]
    [InlineData("ACA1048000000000", "")]
    [InlineData("ACA1048200000000", "violation reserved-bits-in-message")]
    [InlineData("ACA1048000000001", "violation reserved-bits-in-message")]
    public void ReservedBits_AreZero(string hex, string expected)
    {
        Run("R3.2", hex).Should().Be(expected);
        Run("R3.1", hex).Should().Be(expected.Replace("violation", "caution", StringComparison.Ordinal));
    }

    // Tables 6.1, 6.33, 6.41 and 6.49: bit 5 towards a cable, bits 20 to 16 of an ID header, bits 20, 8, 7, 4 and 3 of a passive cable, and what the
    // kernel header names nothing for in Enter_USB. A later chunk of the identity is whole; version 1.0 lays cables out otherwise.
    [Theory]
    [InlineData("8F11 01A000FF", "SOP'", "")]
    [InlineData("AF11 01A000FF", "SOP'", "note reserved-bits-in-message")]
    [InlineData("8F51 41A000FF 00006018 00000000 00000000 43260811", "SOP'", "")]
    [InlineData("8F51 41A000FF 00006118 00000000 00000000 43260811", "SOP'", "note reserved-bits-in-message")]
    [InlineData("8F51 41A000FF 00006018 00000000 00000000 43261811", "SOP'", "note reserved-bits-in-message")]
    [InlineData("8F51 41A000FF 00006018 00000000 00000000 43270811", "SOP'", "note reserved-bits-in-message")]
    [InlineData("8F51 41A000FF 00006018 00000000 00000000 4B260811", "SOP'", "note reserved-bits-in-message")]
    [InlineData("8F51 418000FF 00006018 00000000 00000000 4B270811", "SOP'", "")]
    [InlineData("A811 00000020", "SOP", "")]
    [InlineData("A811 00000021", "SOP", "note reserved-bits-in-message")]
    [InlineData("A811 00100020", "SOP", "note reserved-bits-in-message")]
    public void ReservedBitsBehindTheFirstObject_AreNoted(string hex, string sop, string expected) =>
        Run("R3.2", hex.Replace(" ", "", StringComparison.Ordinal), sop).Should().Be(expected);

    // Tables 6.27, 6.29, 6.46, 6.47, 6.49, 6.50, 6.67 and 6.1: the codes beside the first and the last of each.
    [Theory]
    [InlineData("AA1100000001", "")]
    [InlineData("AA1100000000", "violation")]
    [InlineData("AA1100000005", "")]
    [InlineData("AA1100000006", "violation")]
    [InlineData("AA1100000504", "")]
    [InlineData("AA1100000604", "violation")]
    [InlineData("A31100000050", "")]
    [InlineData("A31100000060", "violation")]
    [InlineData("A31100000070", "violation")]
    [InlineData("A311000000A0", "")]
    [InlineData("A311000000B0", "violation")]
    [InlineData("A81100000020", "")]
    [InlineData("A81100000030", "violation")]
    [InlineData("A511000A0000", "")]
    [InlineData("A511000E0000", "violation")]
    [InlineData("A61101000080", "")]
    [InlineData("A61104000080", "")]
    [InlineData("A61105000080", "violation")]
    [InlineData("A61100000080", "violation")]
    [InlineData("A61100000004", "")]
    [InlineData("AF1106A000FF", "")]
    [InlineData("AF1107A000FF", "violation")]
    [InlineData("AF1100A000FF", "violation")]
    [InlineData("AF1110A000FF", "")]
    [InlineData("AF1107A03412", "")] // what other SVIDs command is their matter
    [InlineData("AF1101A800FF", "")]
    [InlineData("AF1101B000FF", "violation")]
    [InlineData("AF1101C000FF", "violation")]
    [InlineData("B091028001000000", "")]
    [InlineData("B091028004000000", "")]
    [InlineData("B091028005000000", "violation")]
    [InlineData("B091028000000000", "violation")]
    [InlineData("E401", "violation")] // revision code 3
    public void ReservedCode_IsNamed(string hex, string expected)
    {
        expected = expected.Length == 0 ? "" : expected + " reserved-code";
        Run("", hex, extra: Newest).Should().Be(expected);
        Run("R3.2", hex).Should().Be(expected.Replace("violation", "caution", StringComparison.Ordinal), "a later version may give it a meaning");
    }

    // Tables 6.5, 6.6 and 6.53, the column of SOP*. Who sends to a cable is not known; what the cable sends is its own.
    [Theory]
    [InlineData("8700", "SOP'", "caution message-not-for-cables")]
    [InlineData("8700", "SOP''", "caution message-not-for-cables")]
    [InlineData("8700", "SOP", "")]
    [InlineData("8301", "SOP'", "")]
    [InlineData("8D00", "SOP'", "")]
    [InlineData("9200", "SOP'", "")]
    [InlineData("9300", "SOP'", "caution message-not-for-cables")]
    [InlineData("9800", "SOP''", "")]
    [InlineData("8811 00000020", "SOP'", "")]
    [InlineData("8111 2C910108", "SOP'", "note message-not-for-cables")]
    [InlineData("8110 2C910108", "SOP'", "caution message-not-for-cables")]
    [InlineData("8691 0280 00000000", "SOP'", "")]
    [InlineData("8390 0180 00000000", "SOP'", "caution message-not-for-cables")]
    public void MessageBetweenPorts_DoesNotGoToACable(string hex, string sop, string expected) =>
        Run("R3.2", hex.Replace(" ", "", StringComparison.Ordinal), sop).Should().Be(expected);

    // How many objects the standard's commands have is from memory, so that it is a note.
    [Theory]
    [InlineData("AF11 02A000FF", "")]
    [InlineData("AF21 02A000FF 00000000", "note object-count-wrong")]
    [InlineData("AF11 42A000FF", "note object-count-wrong")]
    [InlineData("AF21 42A000FF 00000000", "")]
    [InlineData("AF11 43A100FF", "note object-count-wrong")]
    [InlineData("AF21 81A000FF 00000000", "note object-count-wrong")]
    [InlineData("AF21 C2A000FF 00000000", "note object-count-wrong")]
    [InlineData("AF21 06A1 0100 00000000", "")]
    [InlineData("AF31 06A100FF 00000000 00000000", "note object-count-wrong")]
    [InlineData("AF21 02A0 3412 00000000", "")]
    public void ObjectsOfACommand_AreNoted(string hex, string expected) =>
        Run("R3.2", hex.Replace(" ", "", StringComparison.Ordinal)).Should().Be(expected);

    // It says itself which edition it follows, whatever the header states.
    [Fact]
    public void ReservedBitOfRevision_IsSettledByItself() =>
        Run("R3.1", "AC1101001132").Should().Be("violation reserved-bits-in-message");

    private static string Block(int code, int size)
    {
        int objects = (size + 2 + 3) / 4;
        int header = 0x8000 | (objects << 12) | 0x01A0 | code;
        return $"{header & 0xFF:X2}{header >> 8:X2}{size:X2}80{string.Concat(Enumerable.Repeat("00", (objects * 4) - 2))}";
    }

    // Revision message of R3.2v1.1.
    private const string Newest = """
        {"t":500,"sop":"SOP","hex":"AC1300001132","crc_ok":true}

        """;

    private static string Run(string edition, string hex, string sop = "SOP", string extra = "")
    {
        string header = edition.Length == 0 ? "" : $",\"edition\":\"{edition}\"";
        return ScriptRun.Findings(
            CaptureRun.Told($$"""
                {"capture":1{{header}}}
                {"t":0,"sop":"SOP","hex":"A1112C910108","crc_ok":true}
                {{extra}}{"t":1000,"sop":"{{sop}}","hex":"{{hex}}","crc_ok":true}
                """),
            Names);
    }
}
