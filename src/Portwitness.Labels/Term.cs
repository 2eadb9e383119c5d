namespace Portwitness.Labels;

/// <summary>What a word or phrase of a label means. In Words/*.txt each has the same name, in lower case with hyphens.</summary>
internal enum Term
{
    None,
    Input,
    Output,

    /// <summary>Input and output in one word: "I/O", "E/S".</summary>
    BothWays,
    Maximum,
    UpTo,
    Total,

    /// <summary>"Max output": the product's or the port's maximum.</summary>
    MaximumOutput,
    Or,
    And,
    To,

    /// <summary>In front of a range: "from", "da", "от".</summary>
    From,
    At,
    Direct,
    Alternating,
    Usb,
    ConnectorType,
    Port,
    PortName,
    Cable,

    /// <summary>Beside a cable: it belongs to the product.</summary>
    BuiltIn,
    Wireless,
    Alone,
    Each,
    Shared,

    /// <summary>Several ports at once: "simultaneous".</summary>
    Together,
    Two,
    Three,
    Four,

    /// <summary>Several, or all.</summary>
    Many,

    /// <summary>What stands between the words of a condition: "when", "in use".</summary>
    Use,

    /// <summary>What stands over the cells of a table: "voltage", "mode".</summary>
    Heading,
    PowerDelivery,
    Programmable,
    OpenProtocol,
    Battery,
    RatedCapacity,
    Energy,
    NominalVoltage,
    Typical,
    Efficiency,
    LowLoad,
    NoLoad,
    Conversion,
    Times,

    /// <summary>A word for the sign: "plus".</summary>
    Plus,

    /// <summary>Stands for a colon in a sentence: "delivers".</summary>
    Gives,

    /// <summary>"Gets", "charges at": the same of a charger, and nothing of a pack.</summary>
    Gets,

    /// <summary>Between a direction and a port: "via".</summary>
    Via,

    /// <summary>Behind a number of cells: "cells in series".</summary>
    Series,

    /// <summary>A heading of what rates nothing: "Model", "Serial number".</summary>
    Remark,

    /// <summary>What the thing is: "charger". A power beside it is a title.</summary>
    Product,

    /// <summary>The socket of a car.</summary>
    Vehicle,
    Article,

    /// <summary>Which of several, without a name: "upper", "additional".</summary>
    Position,

    /// <summary>A mark, a standard, a trade word: it rates nothing and changes no meaning.</summary>
    Nothing,

    /// <summary>Begins a sentence that rates nothing, whatever numbers are in it: "Do not".</summary>
    Caution,
}
