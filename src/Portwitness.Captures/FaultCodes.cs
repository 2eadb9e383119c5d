namespace Portwitness.Captures;

/// <summary>The words for what can be wrong with an input; scripts may rely on them. captures/FORMAT.md explains each.</summary>
public static class FaultCodes
{
    /// <summary>Nothing in it.</summary>
    public const string Empty = "input-empty";

    /// <summary>None of the known formats.</summary>
    public const string FormatUnknown = "format-unknown";

    /// <summary>Text in another encoding than UTF-8, or bytes that are no UTF-8.</summary>
    public const string NotUtf8 = "text-not-utf8";

    /// <summary>A line above 64 KiB; it was skipped.</summary>
    public const string LineTooLong = "line-too-long";

    /// <summary>Only the first 1,000 faults of an input are listed; this one counts the others.</summary>
    public const string FaultsOmitted = "faults-omitted";

    /// <summary>A record's time is before that of the record before.</summary>
    public const string TimeBackwards = "time-backwards";

    /// <summary>A capture whose first line is no header.</summary>
    public const string HeaderMissing = "header-missing";

    /// <summary>A capture of another version of the format; its records were not read.</summary>
    public const string HeaderVersion = "header-version";

    /// <summary>A header that is not the first line; the records after it were not read.</summary>
    public const string HeaderMisplaced = "header-misplaced";

    /// <summary>A note, no fault: a member of a header that the format does not name. It is kept, and means nothing.</summary>
    public const string HeaderMemberUnknown = "header-member-unknown";

    /// <summary>A line of a capture that is no JSON object.</summary>
    public const string JsonInvalid = "json-invalid";

    /// <summary>A record with no member that says what it records.</summary>
    public const string RecordUnknown = "record-unknown";

    /// <summary>A member that the record needs is not there.</summary>
    public const string MemberMissing = "member-missing";

    /// <summary>A member's value is not what the format allows.</summary>
    public const string MemberInvalid = "member-invalid";

    /// <summary>A member stands twice; the first value was taken.</summary>
    public const string MemberRepeated = "member-repeated";

    /// <summary>No usable time; the record got that of the record before.</summary>
    public const string TimeInvalid = "time-invalid";

    /// <summary>Digits that are no hexadecimal bytes.</summary>
    public const string HexInvalid = "hex-invalid";

    /// <summary>Too few or too many bytes.</summary>
    public const string HexLength = "hex-length";

    /// <summary>A mask of known bits that does not fit the message.</summary>
    public const string KnownInvalid = "known-invalid";

    /// <summary>An event that this version has no word for; it was passed on.</summary>
    public const string EventUnknown = "event-unknown";

    /// <summary>A line of a kernel log that looks as if it mattered and could not be read.</summary>
    public const string LogLineUnreadable = "log-line-unreadable";

    /// <summary>A line of a kernel log that belongs to a message which is not there.</summary>
    public const string LogLineOrphan = "log-line-orphan";

    /// <summary>A capability list of a kernel log with fewer lines than its header says.</summary>
    public const string LogObjectsMissing = "log-objects-missing";

    /// <summary>The kernel dropped lines here.</summary>
    public const string LogOverflow = "log-overflow";

    /// <summary>A listing of another system, which counts objects from 1.</summary>
    public const string LogListingUnsupported = "log-listing-unsupported";

    /// <summary>A kernel log without one line about the port.</summary>
    public const string LogWithoutRecords = "log-without-records";

    /// <summary>Not a 32-bit word; its place in the list was kept, its bits are unknown.</summary>
    public const string WordInvalid = "word-invalid";

    /// <summary>An offer that cannot be read.</summary>
    public const string OfferInvalid = "offer-invalid";

    /// <summary>More offers than a list has.</summary>
    public const string OffersTooMany = "offers-too-many";

    /// <summary>An archive without a capture, or with several.</summary>
    public const string ArchiveUnsettled = "archive-unsettled";

    /// <summary>A note, no fault: which of several signals or files was read.</summary>
    public const string SignalChosen = "signal-chosen";

    /// <summary>A note, no fault: what was read otherwise than it was recognised on a photo, or passed over, and whether somebody has compared it.</summary>
    public const string PhotoRead = "photo-read";

    /// <summary>Whether a code is of a note, which leaves nothing open.</summary>
    public static bool IsNote(string code) => code is HeaderMemberUnknown or SignalChosen or PhotoRead;

    /// <summary>Something in a quoted text that cannot be read as what it seems to be.</summary>
    public const string QuotedUnread = "quoted-unread";

    /// <summary>Words whose place in the list cannot be known.</summary>
    public const string WordsUnplaced = "words-unplaced";

    /// <summary>A value that is not as the kernel prints it, or that the field cannot hold; the field is unknown.</summary>
    public const string SysfsValueInvalid = "sysfs-value-invalid";

    /// <summary>An attribute that stands twice with different values; the first was taken.</summary>
    public const string SysfsValueRepeated = "sysfs-value-repeated";

    /// <summary>An object of a type that is not known; its place was kept, its bits are unknown.</summary>
    public const string SysfsTypeUnknown = "sysfs-type-unknown";

    /// <summary>A position that no list has, or one with two objects.</summary>
    public const string SysfsPositionInvalid = "sysfs-position-invalid";

    /// <summary>A position without a directory; the object's bits are unknown.</summary>
    public const string SysfsObjectMissing = "sysfs-object-missing";

    /// <summary>Directories of several ports; nothing was read.</summary>
    public const string SysfsSeveralPorts = "sysfs-several-ports";

    /// <summary>Nothing of a capability list in it.</summary>
    public const string SysfsWithoutObjects = "sysfs-without-objects";

    /// <summary>A damaged archive or compressed file; what came before was read.</summary>
    public const string ArchiveInvalid = "archive-invalid";

    /// <summary>A compressed file, or a file in an archive, that is too long; it was not read to its end.</summary>
    public const string ArchiveTooLong = "archive-too-long";

    /// <summary>A pcapng file that ends within a block; what came before was read.</summary>
    public const string PcapngCut = "pcapng-cut";

    /// <summary>A block of a pcapng file that cannot be; it, or everything from there on, was not read.</summary>
    public const string PcapngBlockInvalid = "pcapng-block-invalid";

    /// <summary>A block above 512 KiB; it was passed over.</summary>
    public const string PcapngBlockTooLong = "pcapng-block-too-long";

    /// <summary>Blocks of a type that is not known here; they were passed over.</summary>
    public const string PcapngBlocksUnknown = "pcapng-blocks-unknown";

    /// <summary>An interface whose packets are no records; they were left out.</summary>
    public const string PcapngLinkType = "pcapng-link-type";

    /// <summary>An option of an interface that cannot be used.</summary>
    public const string PcapngOptionInvalid = "pcapng-option-invalid";

    /// <summary>Records of other ports than the one that was read.</summary>
    public const string PcapngOtherPorts = "pcapng-other-ports";

    /// <summary>Records of other ports than the one that was read, in a capture of several.</summary>
    public const string OtherPorts = "other-ports";

    /// <summary>Records of a port that the header of a capture of several does not name.</summary>
    public const string PortUnknown = "port-unknown";

    /// <summary>The recorder says that it lost packets.</summary>
    public const string PcapngDrops = "pcapng-drops";

    /// <summary>A packet that is no record.</summary>
    public const string RecordInvalid = "record-invalid";

    /// <summary>A record of another version of the layout.</summary>
    public const string RecordVersion = "record-version";

    /// <summary>A record of which only a part was kept.</summary>
    public const string RecordCut = "record-cut";

    /// <summary>A VCD file that is not as IEEE 1364 describes it.</summary>
    public const string VcdInvalid = "vcd-invalid";

    /// <summary>The signal or column to read is not there, or may be one of several; nothing was read.</summary>
    public const string SignalUnsettled = "signal-unsettled";

    /// <summary>A row of a recorded voltage that cannot be read.</summary>
    public const string WaveformRowInvalid = "waveform-row-invalid";

    /// <summary>A recording of the line in which no frame was found.</summary>
    public const string WaveformWithoutFrames = "waveform-without-frames";

    /// <summary>Samples that end within one.</summary>
    public const string SamplesCut = "samples-cut";

    /// <summary>A table in which a column that is needed cannot be found; nothing of it was read.</summary>
    public const string TableColumns = "table-columns";

    /// <summary>Something that nothing states and that was taken to be the usual.</summary>
    public const string TableAssumed = "table-assumed";

    /// <summary>A line of a table that cannot be read.</summary>
    public const string TableRowInvalid = "table-row-invalid";

    /// <summary>How many lines of a table hold no message.</summary>
    public const string TableRowsEmpty = "table-rows-empty";

    /// <summary>Something of the measurements that were to be joined.</summary>
    public const string MeasurementsFaulty = "measurements-faulty";
}
