namespace Portwitness.Labels;

/// <summary>A repair by the indices of the printed text; places are counted when all is read.</summary>
internal readonly record struct Repair(RepairKind Kind, int Start, int End, string After);
